### What a limit set asks of a circuit, and where it says so.

limit-demand = { $volts } d.c., at least { $minimum }, { $source }
limit-demand-no-voltage = at least { $minimum }, test voltage not stated by this set, { $source }
limit-minimum = at least { $minimum }
limit-voltage = { $volts } d.c.
limit-voltage-not-stated = not stated by this set
limit-ohms-per-volt = { $ohms } for each volt of nominal voltage
limit-source = { $title } { $place }
limit-source-of-set = { $source }, in the set “{ $set }”

## How a figure reached this program.

tag-seen = read in a published page
tag-memory-high = recalled from memory, very sure
tag-memory-medium = recalled from memory, fairly sure
tag-memory-low = recalled from memory, unsure
tag-calculated = worked out from the figures given
tag-practice = common practice, no source
tag-user = entered by the user of this set

## Circuits

measure-none = no extra-low voltage measure
measure-selv = SELV
measure-pelv = PELV
measure-felv = FELV
measure-separation = electrical separation

current-ac = a.c.
current-dc = d.c.

nominal-ac = { $volts } a.c.
nominal-dc = { $volts } d.c.
nominal-ac-to-earth = { $volts } a.c., { $earth } to earth
nominal-dc-to-earth = { $volts } d.c., { $earth } to earth

circuit-plain = { $nominal }, { $conductors }
circuit-selv = SELV { $nominal }, { $conductors }
circuit-pelv = PELV { $nominal }, { $conductors }
circuit-felv = FELV { $nominal } supplied from { $supply }, { $conductors }
circuit-separation = { $nominal }, electrical separation, { $conductors }

loads-out = loads disconnected
loads-connected = loads connected
loads-electronics = electronics connected

item-heating-element = sheathed heating element
item-functional-earth = functional-earth connection

location-wet = wet room or outdoors
location-fire-risk = location with fire risk

stage-before = before equipment is connected
stage-after = after equipment is connected

conductors-with-pen = { $lives } with PEN

policy-value-simple = the reading as shown is compared with the limit
policy-value-guarded = the tester's uncertainty at the reading is added to the limit
policy-tester-full = a tester is proved when every requirement was tested and met
policy-tester-usual = a tester is proved when its indications hold and no requirement is known not to be met
policy-tester-indications-only = a tester is proved when its indications hold

## Ends and pairs

end-other-circuits = other circuits
end-all-lives = all lives of { $circuits }
end-of-circuit = { $conductors } of circuit { $circuit }
pair-joined = { $a } – { $b }
