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
pair-jump-asked = { $pair }, { $sign } { $shown }, new reading asked for
asked-again = new reading asked for
asked-short = asked for
entry = Reading being typed
pad = Keypad
volts-pad = Test voltage of the tester
volts-other = Other
volts-title = Test voltage the tester is set to
tester-title = Tester in use
tester-choose = Choose a tester
tester-later = Without a tester for now
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
refused-tenth-digit = Nine digits at most
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

## Elsewhere from here

cautions = Cautions
look-list = Things to look at
correct = Correct many readings
leads-shorted = Leads shorted: what the tester shows
leads-open = Leads open: what the tester shows
leads-near-zero = Near zero

## Around a job

details = Technical text
ways = Ways around this job
way-job = Job
way-run = Run
jobs = Jobs
back-to-job = Back to the job
schedule = Schedule of results
handover = Hand-over
record = Record
record-board = Record { $board }
save = Save
visits = Earlier visits
reason = Reason
stays = Stays as it is
jump = Go there
jump-to = Go there: { $place }
withdraw = Withdraw
bring-back = Bring back
nowhere = Nothing here
nowhere-words = There is no such screen.

## Jobs

jobs-none = No jobs on this device yet
job-start = Start a job
job-receive = Receive a job
job-make-demo = Put the invented demo job here
job-demo = Invented demo · { $summary }
job-at = { $name }, { $place }
job-name = Name of the job
job-place = Place
job-me = Your name
job-names = Name and place
job-invented = Invented demo job

## Job

boards = Boards
boards-none = No boards yet. Type a name
board-new = Name of a new board
board-name = Name of the board
board-add = Add the board
board-edit = Board
board-remove = Remove this board
board-people = Who does this board
board-people-hint = A note, not a lock: anybody may record on it
board-remove-hint = Its readings stay in the record
devices = Devices
devices-about = A device is known once somebody at a known one vouches for it. Vouch only for a device you have seen its person use.
device-vouch = Vouch for it
device-vouch-for = Vouch for { $device }
device-vouched = You vouch for this device
people = People
people-who = Who records on this device
person-add = Add a person
person-name = Name
person-role = Role (optional)
person-named = { $name }, { $role }
testers-all = All testers on this device
rules = Judged by
rules-change = Limit set and policies
limit-set = Limit set
set-about = { $scope } · { $source } · { $hash }
set-own = Take a limit set of your own
value-policy = A value meets its limit when it is
value-policy-simple = at or above the limit
value-policy-guarded = above the limit by the tester's uncertainty
tester-policy = A verification proves a tester when
tester-policy-full = every requirement was tested and met
tester-policy-usual = indications hold and no requirement is known to be unmet
tester-policy-indications_only = indications hold
quick-check-days = Days within which a quick check of the tester is asked for
quick-check-days-hint = Empty means none is asked for
quick-check-days-complaint = Write a number of days
cautions-read = Read and confirmed
cautions-unread = Not yet read by you
cautions-confirm = I have read these cautions

## Settling

settle = To settle
settle-step = To settle { $step } of { $of }
settle-later = Later
settle-made = { $count ->
    [one] { $count } thing settled
   *[other] { $count } things settled
}
settle-take-back = Take back
settle-take-back-that = Take back: { $which }
settle-keys = Keys: 1 2 … choose, B both, L later, Ctrl + Z takes back, ? all keys

## Circuits

circuit = Circuit
circuits = Circuits
circuits-none = No circuits yet. Make many at once, or one by one
circuits-bulk = Make many
circuits-count = How many
circuits-count-hint = 12 makes twelve numbered circuits; names come later
circuits-add = Add these circuits
circuits-import = Paste or import
readings-import = Paste or import readings
readings-columns = The first row names the columns: circuit, pair, stage, comparator, reading, unit, test_voltage_v, tester, time. Also read: board, tester_serial, date, read_by, loads, n_isolated, reduced. Readings copied out have them all. Nothing is filled in
readings-take = Take these readings
place-of-reading = Where
taken-at = Taken at
read-by = Read by
test-voltage-head = Test voltage
import-what = Here
circuits-removed = Removed circuits
circuit-new = New circuit
circuit-edit = Circuit { $circuit }
circuit-up = Circuit { $circuit } up
circuit-down = Circuit { $circuit } down
circuit-remove = Remove circuit { $circuit }
circuit-reference = Reference
circuit-description = Description
circuit-kind = Kind
circuit-nominal = Nominal voltage, V
circuit-nominal-hint = For example 230, or 400 for three phases
circuit-current = Current
circuit-to-earth = Voltage to earth, V
circuit-to-earth-hint = Only where the set asks for it
circuit-measure = Protective measure
circuit-felv-supply = FELV: nominal voltage of its supply, V
circuit-conductors = Conductors
circuit-loads = Loads
circuit-item = Special item
circuit-location = Special location
circuit-joined = Lives joined for the test to earth
circuit-spd = A surge protector stays connected
circuit-notes = Notes
none-special = None
done-of = { $done } of { $of }
follows = What follows
follows-voltage = Test voltage
follows-minimum = Minimum
follows-pairs = Pairs to read
import-columns = Columns: reference, description, nominal_v, current, to_earth_v, measure, felv_supply_v, conductors, loads, notes, lives_joined, spd_stays, item, location. A first row may name them in another order
import-paste = Paste a table here
import-format = Columns are parted by
import-tsv = Tabs
import-csv = Commas or semicolons
import-file = Or choose a file
import-show = Show what it makes
import-line = Line { $line }: { $words }
import-complaints = What cannot be taken

## Testers

tester = Tester
tester-named = { $name } · { $serial }
tester-new = New tester
tester-name = What people call it
tester-serial = Serial number
tester-serial-hint = Empty if it has none: the bench puts a mark on it
tester-unnumbered = { $name } · no serial number
tester-invented = Invented demo tester
tester-invented-state = Invented demo · { $state }
tester-serial-of = Serial number { $serial } { $model }
tester-serial-none = No serial number { $model }
tester-model = Type
tester-state = Today
testers-none = No testers yet. Add the one you use
card-edit = Change the card
card-conforms = Its papers say it conforms to IEC 61557-2
card-shorted = Shows at most, leads shorted
card-shorted-hint = For example 0.05 MΩ; empty means near zero
voltage-group = Test voltage on the card
voltage-add = Add a test voltage
voltage-remove = Remove this test voltage
volts = Test voltage, V
over-range = Shows over-range above
over-range-hint = For example 999 MΩ
operating-percent = Operating uncertainty, %
range-from = Range from
range-to = to
range-resolution = Step of the display
range-percent = Accuracy, % of reading
range-digits = plus digits
range-add = Add a range
range-remove = Remove this range
verifications = Verifications
verifications-none = No verification on record. Readings with this tester are flagged
verification-new = Record a verification
verification-correct = Correct it
verification-withdraw = Withdraw this verification
verification-date = Made on
verification-time = Time (if stated)
verification-until = Valid until
verification-suggest = By the interval of this tester
verification-kind = Kind
verification-by = Made by
verification-certificate = Certificate number
verification-adjusted = The tester was adjusted
verification-failed-whole = The paper says failed without saying where
date-hint = For example 25 Nov 2026
time-hint = For example 14:30
finding-group = At one test voltage
as-found = As found
as-left = As left
outcome = Result
conforms = Conforms to the tester standard
edition = Edition of the standard
edition-hint = For example IEC 61557-2:2019
holds-from = Indications hold from
holds-to = to
holds-none = The certificate does not say where indications hold
holds-add = Add where indications hold
holds-remove = Remove this interval

card-ranging = Ranges
card-ranging-hint = Of ranges that overlap, enter each from where the one below ends: a resistance is verified on the finest range that holds it
card-ranging-none = Not stated
card-ranging-automatic = Chosen by the tester
card-ranging-manual = Set by hand
card-interval = Months from one verification to the next
card-interval-hint = Empty means 12
checks = Quick checks and damage
checks-none = Neither on record
check-withdraw = Withdraw this entry
quick-check-new = Quick check
quick-check-open = Shown with the leads apart
quick-check-shorted = Shown with the leads together
quick-check-no-box = No check box used
quick-check-known = Known resistance
quick-check-uncertainty = Its uncertainty, %
quick-check-shown = Shown
quick-check-add = Another resistance of the box
damage-new = Report damage
damage-what = What happened
damage-when = With a known day and time the tester is barred from then on. Without them every reading since its last good proof is in doubt
damage-date = Day it happened, if known

## What a tester puts in doubt

recall = Readings in doubt
recall-serial = Readings in doubt by serial number
recall-serial-hint = Of a tester somebody told you of
recall-find = Show its readings in doubt
recall-open = Who to call, what to test again
recall-causes = What was found
recall-people = Call: { $people }
recall-resolved-of = { $resolved } of { $all } resolved
recall-test-again = Test again
recall-resolve = Settle with a reason
recall-reason-hint = Why nothing more has to be done about this reading
recall-pdf = As PDF
recall-csv = As CSV

## Readings, correcting

reading = Reading
comparator = Sign
comparator-exact = exactly
unit = Unit
place = Place
time = Time
replace = Replace
replace-mistyped = mistyped
replace-repaired = repaired, tested again
replace-repeated = repeated
readings-none = No readings yet
readings-by = Taken with
readings-all = Every tester
readings-chosen =
    { $count ->
        [0] No readings chosen
        [one] { $count } reading chosen
       *[other] { $count } readings chosen
    }
choose-all = Choose all of these
correct-date = Day they were taken
correct-date-hint = Times of day stay
correct-save = Correct these readings
loads-out = disconnected
loads-connected = connected
loads-electronics = with electronics

## Schedule

ready = Ready?
ready-nothing = Nothing is missing
make-pdf = Make PDF
make-xlsx = Make XLSX
make-csv = Make CSV
making = Making the pages
preview = Preview
page-of = Page { $page } of { $pages }
set-aside = Set the damaged record aside
set-aside-about = Its file is renamed and stays on this device. What of it is as it was written goes on in a new record.
set-aside-go-on = Go on
page-before = Page before
page-after = Page after

## Hand-over

export = Job file
export-about = A snapshot of this job for other software. The record stays here.
export-do = Write the job file
long-work = Reading and checking entries
long-work-pack = Sealing and packing entries
long-work-stop = Stop
receive = Receive
receive-about = A bundle is joined with what is on this device; nothing here is lost, and both values stay where two people did one thing. A job file makes a new job, marked as from a file.
receive-file = Choose a bundle or a job file
receive-join = Take it in
receive-joined = Taken in
receive-job = Go to the job
hand-over = Hand over
hand-over-about = The record of this job with the tester in hand and those its readings rely on, to be taken in on another device. It stays here too.
hand-over-testers = Further testers that go with it
hand-over-do = Write the bundle
files-folder = Folder for files
files-folder-hint = A stick, a shared drive or any other folder of this device, by its whole path.
files-folder-use = Use this folder
files-folder-usual = The usual folder
send-on = Send on…
send-on-refused = The system did not take it. The file stays where it was written
receive-drop = Or drop files on this window, or press Ctrl + O.
receive-next = { $count ->
    [one] On to the other file
   *[other] On to the next of { $count } files
}
receive-take = Make a job of it

## Which paper

paper-as = Paper
paper-now = As it is now

## Sign-off

sign-off = Sign-off
sign-off-counts = What there is
sign-off-open = Open questions
sign-off-open-none = Nothing to look at
sign-off-testers = Testers and what proves them
sign-off-testers-none = No tester was used
sign-off-do = Sign off
sign-off-about = What comes later is shown as after sign-off. A sign-off can be withdrawn and never goes away.
sign-off-name = Name of who signs
sign-off-before = Signed so far
sign-off-none = Nobody has signed this job yet
sign-off-later = What came after
sign-off-later-all = Show { $count } more
sign-off-withdraw = Withdraw
sign-off-withdraw-that = Withdraw: { $which }
sign-off-withdraw-about = It stays on record with this name and reason.
sign-off-withdraw-name = Name of who withdraws it
sign-off-withdraw-do = Withdraw sign-off
sign-off-withdrawn = The sign-off was withdrawn

## Verifying a file

verify = Verify a file
verify-about = A schedule PDF or a bundle: whether it is what was signed, by whom and when. Of a schedule in parts, choose all of them at once.
verify-file = Choose PDFs or a bundle

## Conditions of the next readings

conditions = Conditions of the next readings
stage = When in the work
stage-before = Before equipment is connected
stage-after = After equipment is connected
joined = This circuit's lives, for the test to earth
joined-no = Each on its own
joined-yes = Joined
group = Test circuits together
group-own = By itself, from groups with and without it
group-about = Lives of all chosen circuits joined, read to earth. What meets proves each; anything else leaves the singles to read
group-start = Test them together
group-stop = Test each circuit alone
n-isolated = N isolated from PE
n-isolated-unsaid = Not stated
n-isolated-yes = Isolated
n-isolated-no = Not isolated
reduced = Reduced test voltage
reduced-no = Not used

## Keys of lists and tables

keys = Keys here
keys-arrows = Arrow keys: to the next row or control
keys-row = Home, End: first and last in the row
keys-all = Ctrl + Home, Ctrl + End: first and last of all
keys-page = Page Up, Page Down: ten rows
keys-open = Enter: open
keys-choose = Space: choose
keys-circuit-move = Alt + arrow up or down: move the circuit
keys-circuit-remove = Delete: remove the circuit, Undo brings it back
keys-settle-choose = 1 to 9: choose that one
keys-settle-both = B: keep both
keys-settle-later = L: later, on to the next
keys-settle-undo = Ctrl + Z: take the last choice back
keys-overview-open = Enter: open the job
keys-overview-look = L: what to look at
keys-overview-schedule = S: the schedule
keys-overview-unproved = U: readings whose tester was not proved
keys-this = ?: these keys

keys-grid-edit = Enter or F2: type into the cell; Esc leaves it
keys-grid-type = Digits, > or <: a new figure for the cell
keys-grid-unit = K, M, G: save in kΩ, MΩ, GΩ
keys-grid-over = O: save what the tester shows above its limit
keys-grid-volts = T: the tester is set as asked above
keys-grid-undo = Ctrl + Z: take your last reading back
keys-grid-copy = Ctrl + C: copy the readings of the board
keys-grid-paste = Ctrl + V: a table to look at first

## Grid

grid = Grid
grid-of = { $board } as a grid
grid-back = Back to the circuits
grid-cell = Circuit { $circuit }, { $pair }
grid-why = Why another reading?
grid-why-before = { $before } stays on record as replaced
grid-over-held = A figure stands here: type the new one
grid-not-saved = { $typed } was not saved: k, m or g saves
grid-tester-first = Choose the tester first
grid-volts-first = Say first how the tester is set
grid-narrow = Tap a pair to record it; typing into cells wants a wider screen
grid-tester = Tester in hand
grid-volts = Tester set to

## Copying out

copy-out = Copy out
copy-about = A table parted by tabs, to paste into a spreadsheet
copy-circuits = Circuits
copy-readings = Readings, with comparator and unit
copied-circuits = The circuits are on the clipboard
copied-readings = The readings are on the clipboard
copy-by-hand = Copy this text yourself: the clipboard is closed

## Walking through a list

filter = Show
filter-look = To look at ({ $count })
filter-not-tested = Not tested ({ $count })
filter-accepted = Accepted ({ $count })
filter-all = All ({ $count })
look-none =
    { $count ->
        [0] Nothing to look at: no readings yet
        [one] Nothing to look at. { $count } reading, not marked
       *[other] Nothing to look at. { $count } readings, none marked
    }
not-tested-none = No pair is marked not tested
accepted-none = Nothing was accepted with a reason
review = Review
review-glance = Board at a glance
accepted-mark = accepted
accept-do = Accept with a reason
accept-send = Accept
ask-do = Ask for a new reading
ask-send = Ask
own-do = Add my own reading
other-acts = Replace or withdraw
other-acts-not = Somebody else took this reading. Ask for a new one, or add your own beside it.
withdraw-request = Withdraw the request
withdraw-acceptance = No longer accepted
review-person = No person is named on this device. Name one on the job

look-before = Before
look-after = Next
step-of = { $step } of { $of }
note-kept = Note kept
language = Language
job-from-file = From a file
leads-other = Something else
show-more = Show more
making-demo = Making the invented job

login = Log in to the office
login-first = First password of this hub
login-first-about = This link works once. Choose the name you log in with and a password of at least 8 characters.
login-invited = Your password for the office
login-invited-about = This link works once, for { $name }. Choose a password of at least 8 characters.
login-again = Log in to go on
login-again-about = Your session has ended. What is on the screen stays.
login-name = Name
login-password = Password
login-enter = Log in
login-out = Log out

office = Office
office-about = Enrolled at an office, this device is kept in step with it whenever it is reached. Without a network everything works on.
office-address = Address
office-code = Code
office-device-name = What this device is called there
office-enrol = Enrol this device
office-now = Bring in step now
office-leave = Leave the office
office-leave-about = Everything stays on this device and goes to the office no more. To come back it needs a new code.
office-there = Jobs at the office
office-fetch = Have it here
office-fetch-job = Have { $job } here
office-coming = On its way
phones = Phones
phones-none = No phone is enrolled yet
phones-enrol = Enrol a phone
phones-enrol-about = On the phone, under Jobs and Office. The code enrols one phone within a quarter of an hour.
phones-qr = QR code of address and code
phones-revoke = Revoke
phones-revoke-one = Revoke { $phone }
phones-revoke-about = It is sent nothing more and sends nothing more. What the hub does not have of it by now waits, whoever brings it, until you accept it or throw it away. This cannot be taken back.
phones-accept = Accept
phones-accept-one = Accept what { $phone } recorded
phones-accept-about = The hub did not have this when the phone was revoked. Accept it only if you know who recorded it. It joins the jobs as any other work and cannot be taken out again.
phones-drop = Throw away
phones-drop-one = Throw away what { $phone } recorded
phones-drop-about = What waits of it is deleted here, readings among it, and cannot be brought back from here. The phone keeps what it has. Whoever brings it again makes it wait again.
look-and-feel-login = Theme, hand, gloves, login
login-who = Logged in as { $name }, { $role }
password-change = Change the password
password-old = Password now
password-new = New password, at least 8 characters
password-changed = The password is changed. Where else you were logged in, you no longer are.

people-join = Whoever works on this job joins its people.
sign-off-as = It is signed by { $name }.
sign-off-withdraw-as = It is taken back by { $name }.

accounts = People and roles
account-role = Role of { $name }
account-invite = Invite somebody
account-role-new = Role
account-make-link = Make the link
account-new-link = New link
account-new-link-for = New link for { $name }
account-link = Link for { $name }
account-link-about = Give it to { $name } alone. It works once, and is shown only now.
account-link-copy = Copy the link
account-link-copied = Copied
account-link-by-hand = Copy it yourself: the clipboard is closed
account-take-away = Take away
account-take-away-of = Take away the login of { $name }
account-take-away-about = { $name } is logged out at once and cannot come in again without a new link. What they recorded stays, under their name.
account-keep = Keep
tokens = Scripts and calendar
tokens-about = A token lets a program read or add one kind of thing without a login. The hub describes its doors at /api/1.
token-new = Make a token
token-name = What it is for
token-scope = What it opens
token-days = How long it works
token-days-of = { $days ->
    [one] 1 day
   *[other] { $days } days
}
token-make = Make
token-made = Token of { $name }
token-made-calendar = Subscribe to this address in a calendar. It is shown this once; whoever has it sees names and days of testers.
token-made-script = The script says this with each request, as Authorization: Bearer. It is shown this once.
token-copy = Copy
token-drop = Take away
token-drop-one = Take away the token { $name }
token-drop-about = Whatever uses it is refused from now on. This cannot be taken back.
audit = What was done with accounts
audit-earlier = Earlier

## Many jobs at a glance

overview = Overview
overview-keys = Keys in the table: arrows, Enter opens, Space chooses, L look, S schedule, U not proved, ? all keys
overview-job = Job
overview-place = Place
overview-readings = Readings
overview-lacks = Lacks
overview-lacks-nothing = Nothing
overview-unproved = Not proved
overview-recall = Recall
overview-signed = Signed
overview-demo = Invented
overview-invented-at = { $place ->
    [none] Invented
   *[other] { $place }, invented
}
overview-choose = Choose { $job }
overview-none = No job is like that
overview-due = Testers by when they are due
overview-no-testers = No testers on this device yet
overview-serial = Serial number
overview-state = Today
overview-last-day = Last day
overview-next = Next verification
overview-recalls = Recalls
overview-no-recalls = No reading is in doubt
filter-jobs-all = All ({ $count })
filter-jobs-lacking = Lacks something ({ $count })
filter-jobs-unsigned = Not signed ({ $count })
filter-jobs-unproved = Tester not proved ({ $count })
schedules-format = Schedules as
schedules-write = { $count ->
    [0] Choose jobs to write their schedules
    [one] Write the schedule of { $count } job
   *[other] Write the schedules of { $count } jobs
}
schedules-writing = Writing { $at } of { $of }: { $job }
schedules-stopping = Stops after { $at } of { $of }: { $job }
schedules-written = { $failed ->
    [0] { $written } of { $of } written
   *[other] { $written } of { $of } written, { $failed } could not be
}
schedules-files = { $count ->
    [one] { $count } file
   *[other] { $count } files
}
schedules-now = Being written
schedules-not-yet = Not written yet
format-pdf = PDF, to print
format-xlsx = XLSX, a spreadsheet
format-csv = CSV, plain rows
save-here = Save on this computer
