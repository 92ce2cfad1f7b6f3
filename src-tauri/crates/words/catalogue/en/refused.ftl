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
complaint-name-taken = This name is taken
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
complaint-above-zero = Write a figure above zero
complaint-voltage-twice = { $volts } stands here twice
complaint-nothing-checked = Write what was shown at the leads or at the box
complaint-not-on-card = { $volts } is not on the card of this tester
complaint-no-accuracy-there = The card states no accuracy there: this cannot be judged against it
complaint-nothing-to-correct = Choose readings and what to correct
complaint-nothing-stated = State at least one test voltage
complaint-value-needed = Enter at least one value
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
complaint-file-line = Line { $line }: { $reason }
