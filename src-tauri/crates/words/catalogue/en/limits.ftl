### What a limit set asks of a circuit, and where it says so.

said-limit-demand = { $volts } d.c., at least { $minimum }, { $source }
said-limit-demand-no-voltage = at least { $minimum }, test voltage not stated by this set, { $source }
said-limit-minimum = at least { $minimum }
said-limit-voltage = { $volts } d.c.
said-limit-voltage-not-stated = not stated by this set
said-limit-ohms-per-volt = { $ohms } for each volt of nominal voltage
said-limit-source = { $title } { $place }
said-limit-source-of-set = { $source }, in the set “{ $set }”

## How a figure reached this program.

said-tag-seen = read in a published page
said-tag-memory-high = recalled from memory, very sure
said-tag-memory-medium = recalled from memory, fairly sure
said-tag-memory-low = recalled from memory, unsure
said-tag-calculated = worked out from the figures given
said-tag-practice = common practice, no source
said-tag-user = entered by the user of this set

## Circuits

said-measure-none = no extra-low voltage measure
said-measure-selv = SELV
said-measure-pelv = PELV
said-measure-felv = FELV
said-measure-separation = electrical separation

said-current-ac = a.c.
said-current-dc = d.c.

said-nominal-ac = { $volts } a.c.
said-nominal-dc = { $volts } d.c.
said-nominal-ac-to-earth = { $volts } a.c., { $earth } to earth
said-nominal-dc-to-earth = { $volts } d.c., { $earth } to earth

said-circuit-plain = { $nominal }, { $conductors }
said-circuit-selv = SELV { $nominal }, { $conductors }
said-circuit-pelv = PELV { $nominal }, { $conductors }
said-circuit-felv = FELV { $nominal } supplied from { $supply }, { $conductors }
said-circuit-separation = { $nominal }, electrical separation, { $conductors }

said-loads-out = loads disconnected
said-loads-connected = loads connected
said-loads-electronics = electronics connected

said-item-heating-element = sheathed heating element
said-item-functional-earth = functional-earth connection

said-location-wet = wet room or outdoors
said-location-fire-risk = location with fire risk

said-stage-before = before equipment is connected
said-stage-after = after equipment is connected

said-conductors-with-pen = { $lives } with PEN

said-policy-value-simple = the reading as shown is compared with the limit
said-policy-value-guarded = the tester's uncertainty at the reading is added to the limit
said-policy-tester-full = a tester is proved when every requirement was tested and met
said-policy-tester-usual = a tester is proved when its indications hold and no requirement is known not to be met
said-policy-tester-indications-only = a tester is proved when its indications hold

## Ends and pairs

said-end-other-circuits = other circuits
said-end-all-lives = all lives of { $circuits }
said-end-of-circuit = { $conductors } of circuit { $circuit }
said-pair-joined = { $a } – { $b }

said-kind-live-live = live – live
said-kind-live-earth = live – earth
said-kind-joined-earth = lives joined – earth
said-kind-joined-others = lives joined – other circuits
said-kind-group-earth = lives of several circuits – earth

## Why a set gives no limit

said-no-row = this set has no minimum for { $measure } at { $volts }
said-no-pairs = this set names no pairs for { $measure }
said-pair-members-differ = the circuits of this pair ask for different test voltages
said-pair-of-no-circuit = no circuit of this pair is known

## Why the file of a limit set is not taken

said-set-unreadable = Line { $line }, column { $column }: not a limit set: { $detail }
said-set-too-long = Line { $line }, column { $column }: a set is at most { $most } bytes
said-set-id = Line { $line }, column { $column }: use lower-case letters, digits and hyphens
said-set-version = Line { $line }, column { $column }: versions count from 1
said-set-title = Line { $line }, column { $column }: a title is missing
said-set-no-rows = Line { $line }, column { $column }: a set has at least one row
said-set-not-above-zero = Line { $line }, column { $column }: write a figure above zero
said-set-empty-band = Line { $line }, column { $column }: no circuit can be in this band
said-set-never-used = Line { $line }, column { $column }: never used, row { $earlier } comes first
said-set-not-reduced = Line { $line }, column { $column }: not lower than the voltage asked for
said-set-empty-list = Line { $line }, column { $column }: this list is empty
said-set-required-and-excluded = Line { $line }, column { $column }: { $kind } is required and excluded
said-set-no-pairs = Line { $line }, column { $column }: no pairs for { $measure }, { $conductors }, { $loads }
