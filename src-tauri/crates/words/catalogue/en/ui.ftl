### Labels of the screens. Sentences of the trade are made from reasons and stand in the other files.

## Signs and common words

sign-todo = to do
sign-done = done
sign-look = look
sign-stop = stop
close = Close
more = More
undo = Undo
limit = Limit
source = Source
earlier = Earlier here

## Look and feel

look-and-feel = Theme, hand, gloves
theme = Theme
theme-system = System
theme-light = Light
theme-dark = Dark
theme-sun = Sun
hand = Hand that holds the device
hand-left = Left
hand-right = Right
gloves = Keys
gloves-off = Bare hands
gloves-on = Gloves, larger keys

## Run

screen-run = Record readings
back-to-board = Back to { $board }
test-voltage = Test voltage { $volts }
choose-circuit = Choose a circuit
pairs = Pairs of this circuit
pair-jump = { $pair }, { $sign } { $shown }
entry = Reading being typed
pad = Keypad
volts-pad = Test voltage of the tester
volts-other = Other
volts-title = Test voltage the tester is set to
tester-title = Tester in use
tester-card = Card of this tester
testers = Testers
origin = Where this reading comes from
order-circuits = Order of the circuits
ended = End of the board
comparator-more_than = more than
comparator-less_than = less than
comparator-more_than-sign = >
comparator-less_than-sign = <

## Keys: units are never translated

key-more = More than, less than, exact
key-more-face = >
key-dot = Decimal sign
key-dot-face = .
key-back = Clear the last digit
key-k = kΩ, save
key-m = MΩ, save
key-g = GΩ, save
key-k-face = kΩ
key-m-face = MΩ
key-g-face = GΩ

## What the keypad refuses

refused-no-digits = Enter the reading first
refused-second-dot = One decimal sign only
refused-sixth-digit = Five digits at most
refused-digit-after-zero = Decimal sign next, after 0
refused-open-dot = A digit is missing after the decimal sign
refused-clear-first = Clear { $shown } first
refused-nothing-to-clear = Nothing to clear
refused-too-soon = Just saved: wait a moment
refused-no-over-range = Over-range limit not set for this test voltage
refused-enter = Press k, m or g

## Not tested, note, lead check

not-tested = Not tested
not-tested-title = Not tested: why
not-tested-words = In other words (optional)
note = Note
note-words = Note on this pair
note-save = Keep the note
lead-check = Lead check
lead-check-why = Without it, over-range readings carry a remark

## Elsewhere from here

cautions = Cautions
look-list = Things to look at
correct = Correct many readings
