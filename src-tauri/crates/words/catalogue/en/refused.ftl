### What cannot be a reading, a circuit or a limit set: one line, at most twelve words, what to do.
### The refusals of the keypad itself stand with the labels of the screens.

## A quantity

refused-over-range-not-set = Over-range limit not set for this test voltage
refused-press-unit = Press k, m or g
refused-no-unit = Add the unit: kΩ, MΩ or GΩ
refused-milliohm = Write MΩ or kΩ
refused-unknown-unit = Write Ω, kΩ, MΩ or GΩ
refused-grouping = No spaces or signs between digits but one decimal sign
refused-not-exact = An exact figure is needed, without > or <
refused-not-a-number = Write digits, for example { $example }

## Fields of forms

complaint-needed = Fill this in
complaint-name-needed = Enter a name
complaint-office-address-needed = Enter the address that the office shows
complaint-office-code = Enter the 12 letters and digits that the office shows
complaint-name-taken = This name is taken
complaint-look-needed = Look at it, then answer yes or no
complaint-mark-needed = No serial number: write the mark put on it
complaint-reason-needed = Say why in a few words
complaint-reference-needed = Enter the circuit's reference
complaint-reference-taken = Circuit { $reference } is already on this board
complaint-count = Type how many, from 1 to { $most }
complaint-volts = Write the voltage, for example { $example }
complaint-resistance = Write a resistance with its unit, for example { $example }
complaint-percent = Write the percentage as a number, for example { $example }
complaint-whole-number = Write a whole number
complaint-date = Write the date like { $example }
complaint-time = Write the time like { $example }
complaint-last-day-before = The last day lies before the day it was made
complaint-in-the-future = This lies in the future
complaint-ends-turned = The upper end lies below the lower end
complaint-ranges-overlap = This range overlaps the one before it
complaint-step-too-large = One step is larger than this range
complaint-below-zero = Write zero or more
complaint-above-zero = Write a figure above zero
complaint-voltage-twice = { $volts } stands here twice
complaint-nothing-checked = Write what was shown at the leads or at the box
complaint-not-on-card = { $volts } is not on the card of this tester
complaint-no-accuracy-there = The card states no accuracy there: this cannot be judged against it
complaint-nothing-to-correct = Choose readings and what to correct
complaint-nothing-stated = State at least one test voltage
complaint-value-needed = Enter at least one value
complaint-far-from-marked = Stated and marked value differ more than twofold: check the unit
complaint-value-twice = This value stands here twice
complaint-volts-with-unit = Write a voltage, for example 600 V
complaint-amps = Write a current with its unit, for example 1.02 mA
complaint-number = Write a number
complaint-temperature = Write the temperature in °C, for example 23
complaint-coverage-factor = k is 1 or more
complaint-too-long = At most { $most } characters

## Circuits

complaint-extra-low-bound = { $measure } goes up to { $bound }
complaint-felv-supply-needed = Enter the nominal voltage of the FELV supply
complaint-to-earth-above = The voltage to earth is above the nominal voltage
complaint-dc-conductors = These conductors belong to the other kind of current
complaint-above-low-voltage = The limit sets go up to { $bound }
complaint-pen-kept-apart = { $measure } stays apart from a PEN
complaint-no-limit = This set has no limit for this circuit

## Tables and files

complaint-unknown-word = “{ $word }” is none of: { $choices }
complaint-columns = { $found ->
    [one] { $found } column here, { $expected } are needed
   *[other] { $found } columns here, { $expected } are needed
}
complaint-line-unreadable = This line cannot be read as a table
complaint-empty-table = No line with a circuit in it
complaint-unknown-column = Unknown column “{ $column }”
complaint-no-readings = No line with a reading in it
complaint-no-head = The first row must name the columns
complaint-column-missing = The first row lacks the column “{ $column }”
complaint-column-twice = Column “{ $column }” stands here twice
complaint-lines = At most { $most } lines at once
complaint-cell-needed = Fill in “{ $column }”
complaint-unit-needed = Write the unit: kΩ, MΩ or GΩ
complaint-test-voltage = Write the test voltage in volts, for example { $example }
complaint-tester-needed = Write the tester's name or serial number, or “none”
complaint-date-and-time = Write date and time, for example { $example }
complaint-other-board = This line is of board “{ $board }”
complaint-no-circuit = No circuit “{ $circuit }” on this board
complaint-no-pair = The set asks no “{ $pair }” of circuit { $circuit }
complaint-circuits-alike = Several circuits are called “{ $circuit }”: rename them first
complaint-no-tester = No tester “{ $tester }” here: add it first
complaint-testers-alike = Several testers are “{ $tester }”: write the serial number too
complaint-no-person = “{ $person }” is not among the job's people
complaint-people-alike = Several people are called “{ $person }”
complaint-read-by-another = Whoever logged in records as themselves: leave read_by empty
complaint-reading-stands = A reading stands there; replace it in Review
complaint-pair-twice = Line { $line } reads this pair too
complaint-file-line = Line { $line }: { $reason }

## Job files and other JSON

said-json-no-choice = “{ $found }” is not one of: { $choices }
said-json-unknown-member = there is no “{ $found }” at this place. Check how it is spelt
said-json-missing-member = “{ $found }” is missing
said-json-member-twice = “{ $found }” stands here twice
said-json-other-kind = { $found } stands where { $expected } is needed
said-json-cut = the text ends in the middle. Fetch the whole file again
said-json-syntax = this is not JSON: { $reason }
said-json-whole-number = a whole number
said-json-true-or-false = true or false
said-json-text = text in quotes
said-json-decimal = a number in quotes, for example "1000000",
said-json-object = an object in braces
said-json-list = a list in brackets

file-line-place = Line { $line }, { $place }: { $reason }
file-place = { $place }: { $reason }
file-empty = It is empty. Choose another file
file-too-large = It is larger than any file that is read here. Choose another file
file-other = It is not a job file: it does not begin with "format": "{ $format }"
file-newer = It was made by a newer version of the program ({ $version }). Update to read it
file-twice = { $id } stands in it twice
file-no-person = its person is not among the people of the file
file-other-run = it is of another run than the one in this file
file-not-adjusted = it is as left, and the run says that nothing was adjusted
file-before-the-run = it was measured more than a day before the run began
file-other-tester = it is of another tester than the one it stands with
file-no-tester = its tester is not among the testers of the file
file-no-circuit = one of its circuits is not on a board of the file
file-no-reading = the reading it names is not in the file
file-circle = what replaced it was itself replaced by it
file-no-reason = it gives no reason
file-set-unreadable = the limit set's text, { $reason }
file-other-set = this is not the limit set named beside it: id, version or SHA-256 differ. Take the job file as it was made
file-not-shipped = this bears the name of a limit set of this program, and its text differs. Give a set of your own an id of its own
file-circuit = this cannot be a circuit. { $reason }
file-card = this cannot be a tester's card. { $reason }

file-not-text = It is not text in UTF-8. Save it as UTF-8 and try again
file-not-there = There is no such file. Check the name
file-closed = It may not be read. Ask for permission to read it
file-is-folder = It is a folder. Name the file in it
file-not-read = It could not be read: { $reason }

## The program without a window

office-no-limit-because = { $set } has no limit for this circuit: { $reason }
office-supply-of-felv = Only a FELV circuit is tested like its supply. Leave the supply out
office-taken-needed = This set states no test voltage. Say by --taken which one it was taken at, for example --taken 500
office-between-steps = A display in steps of { $step } cannot show { $reading }
office-accuracy-whole = An accuracy of { $percent } and more proves nothing. Write it like 3 % + 2
office-reduced-not-here = This set allows no lower test voltage for that reason here
office-no-folder = There is no folder { $folder }. Make it first or choose another place
office-not-answered = The answer could not be written: { $reason }
office-schedule-ending = A schedule ends in .pdf, .xlsx or .csv
office-hub-no-folder = This system names no folder for data. Say which with --record
office-hub-answers = Provenohm answers at { $address }
office-hub-first = Set the first password here, once: { $link }
office-hub-no-address = It cannot listen on { $address }: { $reason }. Choose another with --listen
office-hub-no-screens = This program was built without its screens. `cargo xtask run` builds both
office-hub-no-certificate = Connections cannot be encrypted: { $reason }
office-hub-no-store = The store of entries could not be read or kept: { $reason }
office-hub-certificate = SHA-256 of its certificate: { $pin }
office-hub-no-accounts = The accounts beside the record could not be read or kept: { $reason }
office-hub-broke-off = The hub broke off: { $reason }. Start it again
office-hub-none-there = There is no hub in { $folder }. Name the folder it keeps its record in
office-hub-none-in-database = There is no hub in that database. Name the one it is served with
office-hub-occupied = There is a hub in { $folder } already. Choose an empty folder
office-hub-not-carried = Not all of it was carried: { $reason }
office-hub-carried = Carried and held against each other: { $entries } entries in { $logs } logs, digest { $digest }
office-hub-ended = Ended. Everything that was saved is on the disk
office-tester-report-ending = A tester report ends in .pdf, .xlsx or .json
office-capacitance = Write a capacitance with its unit, for example 0.3 µF
office-accuracy = Write an accuracy like 3 % + 2, below 100 %
office-moment = Write time and offset like { $example }
office-no-record = There is no record in { $folder }. Name the folder of a record
office-no-such-job = No job of this record is called { $name }. There are: { $jobs }
office-which-job = Say which job by --job. There are: { $jobs }
office-no-jobs = There is no job in this record
refused-sign-off-stopped = { $count ->
    [one] { $count } thing stops a sign-off: see things to look at
   *[other] { $count } things stop a sign-off: see things to look at
}
