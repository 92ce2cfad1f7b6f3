### What an operation answers when it has done something, and the small sums on the screens.

## Jobs and boards

answer-job-summary = { $boards ->
    [one] { $boards } board
   *[other] { $boards } boards
}, { $circuits ->
    [one] { $circuits } circuit
   *[other] { $circuits } circuits
}, { $done } of { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}
answer-board-summary = { $circuits ->
    [one] { $circuits } circuit
   *[other] { $circuits } circuits
}, { $done } of { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}
answer-board-for = for { $people }
answer-progress = { $done } of { $of }
answer-rules = Judged by { $set }: { $value }; { $tester }
answer-look-count = { $count ->
    [0] Nothing to look at
    [one] { $count } thing to look at
   *[other] { $count } things to look at
}
answer-stop-count = { $count ->
    [0] Nothing blocks a sign-off
    [one] { $count } thing blocks a sign-off
   *[other] { $count } things block a sign-off
}
answer-look-and-stop = { $look ->
    [0] Nothing to look at
    [one] { $look } thing to look at
   *[other] { $look } things to look at
}, { $stop ->
    [one] { $stop } blocks a sign-off
   *[other] { $stop } block a sign-off
}
answer-look-accepted = { $count } accepted with a reason
answer-look-asked = { $count ->
    [one] { $count } new reading asked for
   *[other] { $count } new readings asked for
}
answer-demo = Invented demonstration: no installation, no person and no tester in it is real
answer-from-file = Made from a job file

## Many jobs at a glance

answer-overview = { $jobs ->
    [0] No jobs yet
    [one] { $jobs } job
   *[other] { $jobs } jobs
}, { $lacking ->
    [0] none lacks anything
    [one] { $lacking } lacks something
   *[other] { $lacking } lack something
}, { $unproved ->
    [0] none with unproved readings
   *[other] { $unproved } with unproved readings
}
answer-overview-progress = { $done } of { $of }
answer-overview-empty = No circuits yet
answer-overview-stop = { $count ->
    [one] { $count } blocks a sign-off
   *[other] { $count } block a sign-off
}
answer-overview-look = { $count } to look at
answer-overview-todo = { $count } to do
answer-overview-unproved = { $count } { $state }
answer-overview-unproved-none = { $count } with no tester
answer-overview-recall = { $resolved } of { $all } resolved, in { $jobs ->
    [one] { $jobs } job
   *[other] { $jobs } jobs
}

## Readings whose tester was not proved

answer-unproved = { $count ->
    [0] No reading stands whose tester was not proved
    [one] { $count } reading whose tester was not proved, in { $jobs } job
   *[other] { $count } readings whose tester was not proved, in { $jobs ->
        [one] { $jobs } job
       *[other] { $jobs } jobs
    }
}
answer-unproved-readings = { $count ->
    [one] { $count } reading
   *[other] { $count } readings
}
answer-unproved-no-tester = No tester chosen
answer-unproved-verify = Verify the tester, or test again with a proved one
answer-unproved-afterwards = Found good since: look at each reading, or test again
answer-unproved-recall = Work through its recall list, or test again with a proved tester
answer-unproved-choose = Say which tester took them, or test again

## Circuits

answer-readings-for-circuits = { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
} for { $circuits ->
    [one] { $circuits } circuit
   *[other] { $circuits } circuits
}
answer-circuit-saved = Saved circuit { $circuit }
answer-circuits-added = { $count ->
    [one] Added { $count } circuit
   *[other] Added { $count } circuits
}
answer-readings-sum = In { $lines } = new { $new } + same { $same } + not taken { $not }
answer-readings-taken = { $count ->
    [one] Took { $count } reading from the table
   *[other] Took { $count } readings from the table
}
answer-readings-none-new = Nothing was taken: all of it is here already
answer-reading-new = new
answer-reading-same = here already
answer-grid-settle-first = Several readings stand here: settle them first
answer-circuit-removed = { $readings ->
    [0] Removed circuit { $circuit }
    [one] Removed circuit { $circuit } and { $readings } reading
   *[other] Removed circuit { $circuit } and { $readings } readings
}
answer-board-removed = { $readings ->
    [0] Removed { $board }
    [one] Removed { $board } and { $readings } reading: it stays in the record and on the schedule
   *[other] Removed { $board } and { $readings } readings: they stay in the record and on the schedule
}
answer-phone-never = Enrolled { $enrolled }, not heard since
answer-phone-heard = Heard { $heard }, enrolled { $enrolled }
answer-phone-revoked = Revoked { $revoked }
answer-phone-alone = { $entries ->
    [one] 1 entry is on it alone
   *[other] { $entries } entries are on it alone
}
answer-phone-held = { $entries ->
    [one] 1 entry waits to be accepted
   *[other] { $entries } entries wait to be accepted
}
answer-office-none = This device is at no office
answer-office-asking = Asking the office
answer-office-going = Being brought in step: { $sent } entries sent, { $came } received so far
answer-office-in-step = In step with the office at { $time }
answer-office-waiting = Not reached since { $time }. All is here and goes there later
answer-office-waits = { $readings ->
    [one] 1 reading waits here to go there
   *[other] { $readings } readings wait here to go there
}
answer-board-taken-away = { $board }, taken away
answer-circuit-restored = Circuit { $circuit } is back
answer-circuit-follows = { $readings ->
    [one] { $readings } reading: { $demand }
   *[other] { $readings } readings: { $demand }
}
answer-two-values = Two values to settle

## Settling

answer-to-settle = { $count ->
    [0] Nothing to settle
    [one] { $count } thing to settle
   *[other] { $count } things to settle
}
answer-settle-readings = { $count ->
    [2] Two readings of one pair
   *[other] { $count } readings of one pair
}
answer-settle-tested-or-not = Tested, or not tested
answer-settle-not-tested = { $count ->
    [2] Two reasons why one pair was not tested
   *[other] { $count } reasons why one pair was not tested
}
answer-settle-corrections = { $count ->
    [2] Two corrections of one reading
   *[other] { $count } corrections of one reading
}
answer-settle-job-names = { $count ->
    [2] Two names of the job
   *[other] { $count } names of the job
}
answer-settle-job-rules = { $count ->
    [2] Two sets of rules for the job
   *[other] { $count } sets of rules for the job
}
answer-settle-job-people = { $count ->
    [2] Two lists of the people of the job
   *[other] { $count } lists of the people of the job
}
answer-settle-board-order = { $count ->
    [2] Two orders of the boards
   *[other] { $count } orders of the boards
}
answer-settle-board-names = { $count ->
    [2] Two names of one board
   *[other] { $count } names of one board
}
answer-settle-board-people = { $count ->
    [2] Two notes of who does one board
   *[other] { $count } notes of who does one board
}
answer-settle-circuit-order = { $count ->
    [2] Two orders of the circuits
   *[other] { $count } orders of the circuits
}
answer-settle-circuit-label = { $count ->
    [2] Two names of one circuit
   *[other] { $count } names of one circuit
}
answer-settle-circuit-electrical = { $count ->
    [2] Two descriptions of what one circuit is
   *[other] { $count } descriptions of what one circuit is
}
answer-settle-circuit-place = { $count ->
    [2] Two boards for one circuit
   *[other] { $count } boards for one circuit
}
answer-settle-present = There, or removed
answer-settle-tester-identity = { $count ->
    [2] Two names of one tester
   *[other] { $count } names of one tester
}
answer-settle-tester-card = { $count ->
    [2] Two cards of one tester
   *[other] { $count } cards of one tester
}
answer-settle-reference-card = { $count ->
    [2] Two cards of one reference
   *[other] { $count } cards of one reference
}
answer-settle-person = { $count ->
    [2] Two names of one person
   *[other] { $count } names of one person
}
answer-settle-reading = { $count ->
    [2] Both readings stay in the record. Choose the one for the schedule
   *[other] All readings stay in the record. Choose the one for the schedule
}
answer-settle-value = { $count ->
    [2] Both stay in the record. Choose the one that counts
   *[other] All stay in the record. Choose the one that counts
}
answer-settle-both = Keep all: each is printed, the least favourable speaks for the pair
answer-settle-removed-or-not = Removed on one device, changed on another
answer-settle-removed-says = It stays until you choose. Nothing is taken out of the record
answer-settle-keep = Keep it
answer-settle-remove = Remove it
answer-settle-circuits-alike = One circuit added twice?
answer-settle-testers-alike = One tester registered twice?
answer-settle-people-alike = One person entered twice?
answer-settle-alike-says = They stay two until you say they are one. That can be taken back
answer-settle-differ-board = On two boards of one name: { $one }; { $other }
answer-settle-differ-electrical = They differ: { $one }; { $other }
answer-settle-same = One and the same
answer-settle-different = Two different ones
answer-settle-counts = { $readings ->
    [0] No reading so far counts for it
    [one] { $readings } reading counts for it
   *[other] { $readings } readings of both count for it
}
answer-settle-nobody = Nobody in particular
answer-settle-there = There
answer-settle-removed = Removed
answer-settle-by = { $person }, device { $device }
answer-settle-by-here = { $person }, this device
answer-settle-unnamed = Somebody not named here
answer-settle-unnamed-tester = A tester not known here
answer-settled = Settled: { $choice }
answer-settled-both = Settled: all readings stay

## Run

answer-tester-set-to = Tester set to { $volts }
answer-now-circuit = { $description ->
    [none] Now circuit { $circuit }
   *[other] Now circuit { $circuit } · { $description }
}
answer-volts-from-circuit = { $volts } from circuit { $circuit } on
answer-group = { $pair }: { $demand }
answer-group-few = Choose two or more circuits of this board
answer-group-not-this = Circuit { $circuit }: { $why }
answer-group-not-joined = this set lets its lives not be joined for a reading to earth
answer-group-voltage = asks for { $own }, circuit { $circuit } for { $other }
answer-group-any-voltage = no stated test voltage
answer-group-loads = { $own }; on circuit { $circuit }: { $other }
answer-group-surge = a surge protector stays connected on one of it and circuit { $circuit } only
answer-over-range-not-set = > limit not set
answer-policy-quick-check-label = Quick check
answer-policy-quick-check = { $days ->
    [one] a quick check of the tester within one day before each reading
   *[other] a quick check of the tester within { $days } days before each reading
}
answer-trend = { $when }: { $earlier }; now { $now }, { $ratio } times that
answer-trend-more = { $when }: { $earlier }; now { $now }, more than { $ratio } times that
answer-trend-less = { $when }: { $earlier }; now { $now }, less than { $ratio } times that
answer-trend-other-voltage = { $when }: { $earlier } at { $then_volts }; now { $now } at { $now_volts }, not to be compared
answer-trend-open = { $when }: { $earlier }; now { $now }, which says nothing of a change
answer-header-at = { $header } at { $at }
answer-announce = { $pair } { $reading } { $judgement }
answer-not-tested = { $pair } not tested: { $reason }
answer-hint-replaces = A new reading replaces { $reading } as repeated
answer-hint-beside = A new reading stands beside { $reading } of another person until one is chosen
answer-undone = Took back { $reading } for { $pair }
answer-undone-not-tested = Took back “not tested” for { $pair }
answer-board-ended = No pair of this board is open
answer-board-ended-asked = { $count ->
    [one] { $count } new reading asked for at another stage
   *[other] { $count } new readings asked for at another stage
}
answer-board-ended-done = { $count ->
    [one] { $count } reading taken
   *[other] { $count } readings taken
}
answer-board-ended-not-tested = { $count ->
    [one] { $count } pair not tested
   *[other] { $count } pairs not tested
}

## Lead check

answer-tester-due = { $days ->
    [0] { $header } · last day today
    [one] { $header } · { $days } day left
   *[other] { $header } · { $days } days left
}
answer-lead-check-due = Leads not checked today
answer-lead-check-good = Leads checked at { $at }
answer-lead-check-not-good = Leads did not hold at { $at }: look at the leads, check again
answer-leads-shorted-good = Leads shorted showed { $reading }, as expected
answer-leads-shorted-not-good = Leads shorted showed { $reading }: the leads may be open
answer-leads-open-good = Leads open showed { $reading }, as expected
answer-leads-open-not-good = Leads open showed { $reading }: the leads may read low

## Testers

answer-tester-saved = Saved { $tester }
answer-card-line = { $volts }: { $ranges }
answer-card-range = { $from } to { $to }, one step { $resolution }
answer-card-range-accuracy = { $from } to { $to }, one step { $resolution }, ±({ $percent } + { $digits } digits)
answer-card-ranging-automatic = Chooses its ranges by itself
answer-card-ranging-manual = Its ranges are set by hand
answer-card-over-range = over-range shown as { $reading }
answer-verification-recorded = Recorded the verification of { $made }
answer-verification-withdrawn = Withdrawn: { $reason }
answer-verification-recorded-on = Recorded on { $at }
answer-verification-calibration = Calibration of { $made } by { $by }
answer-verification-bench = Bench verification of { $made } by { $by }
answer-verification-certificate = Certificate { $certificate }
answer-verification-valid-until = Valid to { $until }
answer-verification-no-last-day = No last day set
answer-verification-adjusted = Adjusted
answer-no-longer-flagged = { $count ->
    [one] { $count } reading is no longer flagged
   *[other] { $count } readings are no longer flagged
}
answer-newly-flagged = { $count ->
    [one] { $count } reading is now flagged
   *[other] { $count } readings are now flagged
}

## Origin and correction

answer-origin-who = Person
answer-origin-device = Device
answer-origin-tester = Tester
answer-origin-when = Time
answer-origin-recorded = Put on record
answer-origin-voltage = Test voltage
answer-origin-conditions = Conditions
answer-withdrawn = withdrawn: { $reason }
answer-replaced = replaced: { $reason }
answer-not-chosen = not chosen by { $person }, { $time }: { $reason }
answer-another-chosen = another reading of the pair was chosen
answer-corrected = corrected: { $reason }, was { $before }
answer-readings-corrected = { $count ->
    [one] Corrected { $count } reading
   *[other] Corrected { $count } readings
}

## Papers and files

answer-schedule-made = Schedule written
answer-job-exported = Job file written
answer-job-imported = New job made from the file: { $name }. In this record all of it counts as recorded now, notes too; the times of the readings stay. The cautions are to be read again
answer-file-same-serial = A tester with the serial number { $serial } is in this record already. { $name } comes in beside it: what is found of one says nothing of the other
answer-job-file = Job { $name }: { $boards ->
    [one] { $boards } board
   *[other] { $boards } boards
}, { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}
answer-file-made = File made on { $at }
answer-file-set = Judged by { $set }, version { $version }
answer-file-board = { $board }: { $circuits ->
    [one] { $circuits } circuit
   *[other] { $circuits } circuits
}
answer-file-testers = { $count ->
    [0] No tester in it
    [one] { $count } tester with its verifications
   *[other] { $count } testers with their verifications
}
answer-file-same-name = A job called { $name } is on this device already: this makes another
answer-handed-over = Bundle written
answer-handed-over-without = Bundle written without { $count ->
    [one] { $count } entry that is damaged here, or that nothing proves
   *[other] { $count } entries that are damaged here, or that nothing proves
} without what is. A bundle of another device may mend this
answer-bundle-mended = { $count ->
    [one] { $count } entry that was damaged here is as it was written again
   *[other] { $count } entries that were damaged here are as they were written again
}
answer-aside = The damaged record is set aside as { $files } in { $folder }. Nothing of it was deleted
answer-aside-salvaged = { $count ->
    [0] Nothing of it could be read: this device begins with an empty record
    [one] { $count } entry of it is as it was written, and here again
   *[other] { $count } entries of it are as they were written, and here again
}
answer-aside-altered = { $count ->
    [one] { $count } entry of it is not as it was written, and stays there
   *[other] { $count } entries of it are not as they were written, and stay there
}
answer-aside-damaged = There may have been more that can no longer be read
answer-aside-next = Receive a bundle of each job from every device that has it: what they hold comes back
answer-here-for-all = At the office, for everybody who works here
answer-at-office-too = On this device and at the office
answer-handed-never = On this device: not handed over yet
answer-handed-at = Handed over on { $at }
answer-handed-not-yet = { $count ->
    [0] Every reading of this device is in that file
    [one] { $count } reading of this device not handed over yet
   *[other] { $count } readings of this device not handed over yet
}
answer-device = { $device }{ $here ->
    [here] {" "}(this one)
   *[elsewhere] {""}
} · { $people } · { $count ->
    [one] 1 entry
   *[other] { $count } entries
}
answer-device-began = Known to this job, which was begun on it
answer-device-known = Known to this job: { $people } vouches for it
answer-device-unknown = Not known to this job: nobody vouches for it
answer-device-vouched-unknown = Not known to this job: { $people } vouches for it, on a device not known itself. { $reason }
answer-device-goes-on = Not known to this job: it says that it goes on from { $device }, which is
answer-origin-device-known = { $device }, { $known ->
    [known] known to this job
   *[unknown] not known to this job
}
answer-received-at = Received last on { $at }
answer-received-back = Received back on { $at }: { $count ->
    [one] 1 reading of this device is
   *[other] { $count } readings of this device are
} on another device too
answer-only-here = { $count ->
    [0] No reading is only on this device
    [one] 1 reading only on this device, as far as it knows
   *[other] { $count } readings only on this device, as far as it knows
}
answer-bundle-sum = In { $came } = joined { $joined } + same { $same } + to settle { $settle }
answer-bundle-job = Job { $name }: { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
answer-bundle-tester = Tester { $name }: { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
answer-bundle-reference = Reference { $name }: { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
answer-bundle-gaps = { $count ->
    [one] { $count } entry in between is missing: another bundle may bring it
   *[other] { $count } entries in between are missing: another bundle may bring them
}
answer-bundle-forks = { $count ->
    [one] At { $count } place two devices wrote under one name: both are kept
   *[other] At { $count } places two devices wrote under one name: both are kept
}
answer-bundle-newer = { $count ->
    [one] { $count } item needs a newer version
   *[other] { $count } items need a newer version
}
answer-bundle-vouched = { $count ->
    [one] { $count } entry has no seal of its own device: another device vouches for it
   *[other] { $count } entries have no seal of their own device: another device vouches for them
}
answer-bundle-closed = This device was copied or restored: it goes on under a new name in its books
answer-bundle-lacks = { $count ->
    [one] Readings rely on { $count } tester of which nothing is here
   *[other] Readings rely on { $count } testers of which nothing is here
}
answer-page-alt = Page { $page } of { $pages } of the schedule
answer-not-signed = Not signed
answer-as-of = As of { $time }, fingerprint { $fingerprint }

## Signing off

answer-sign-off-covers = This will be sign-off No. { $number }, over { $count ->
    [one] { $count } entry
   *[other] { $count } entries
} on this device now, as of { $time }, fingerprint { $fingerprint }
answer-sign-off-button = { $count ->
    [0] Sign off without a reading
    [one] Sign off { $count } reading
   *[other] Sign off { $count } readings
}
answer-sign-off-followed = A later sign-off has the next number
answer-sign-off-unknown-device = { $count ->
    [one] 1 reading recorded on a device not known to this job
   *[other] { $count } readings recorded on a device not known to this job
}
answer-sign-off-nothing-since = Nothing was recorded after sign-off
answer-sign-off-after = { $count ->
    [one] { $count } entry after sign-off
   *[other] { $count } entries after sign-off
}
answer-sign-off-new-testers = { $count ->
    [one] { $count } tester came to the job after sign-off
   *[other] { $count } testers came to the job after sign-off
}
answer-sign-off-in-doubt = { $count ->
    [one] Since then { $count } reading has come into doubt
   *[other] Since then { $count } readings have come into doubt
}
answer-sign-off-withdrawn = Withdrawn by { $name }, { $time }: { $reason }
answer-entry-at = { $what }: { $place }
answer-entry-later = { $what } · { $name } · { $time }
answer-entry-reading = A reading
answer-entry-withdrawal = Something withdrawn
answer-entry-correction = A correction
answer-entry-not-tested = A pair not tested
answer-entry-note = A note
answer-entry-verification = A verification of a tester
answer-entry-check = A check of a tester
answer-entry-damage = Damage to a tester
answer-entry-request = A new reading asked for
answer-entry-accepted = Something accepted with a reason
answer-entry-settlement = A choice between two values
answer-entry-log-opened = A device begins to record
answer-entry-seal = A seal
answer-entry-sign-off = A sign-off
answer-entry-erasure = A name or note erased
answer-entry-attachment = A file kept with something
answer-entry-person = The name of a person
answer-entry-same-person = Two names said to be one person
answer-entry-same-tester = Two testers said to be one
answer-entry-same-circuit = Two circuits said to be one
answer-entry-different = Two that look alike said to be two
answer-entry-device-known = A device made known to the job
answer-entry-job-opened = A job begun
answer-entry-job-names = The name of the job
answer-entry-job-rules = The rules of the job
answer-entry-job-people = The people of the job
answer-entry-cautions-read = The cautions read
answer-entry-board-order = The order of the boards
answer-entry-board-names = The name of a board
answer-entry-board-present = A board removed or brought back
answer-entry-board-people = Who does a board
answer-entry-circuit-order = The order of the circuits
answer-entry-circuit-label = The name of a circuit
answer-entry-circuit-electrical = What a circuit is
answer-entry-circuit-place = The board of a circuit
answer-entry-circuit-present = A circuit removed or brought back
answer-entry-tester-identity = The name of a tester
answer-entry-tester-card = The card of a tester
answer-entry-reference-card = The card of a reference
answer-entry-bench-run = A run at the bench
answer-entry-measured = A figure measured at the bench
answer-entry-recall-resolved = A decision on a reading in doubt
answer-entry-unknown = Something that needs a newer version

## Verifying a file

answer-verify-signed = What was signed is as it was signed
answer-verify-not-signed = Nothing here is altered, and nothing here is signed
answer-verify-later = The data is not what was signed: sign-off No. { $number } is of another state
answer-verify-device-known = Signed on a device known to this job
answer-verify-device-unknown = Signed on a device that nobody of this job vouches for
answer-verify-key = Sealed by a device with the key { $key }
answer-verify-judged-otherwise = Signed under version { $signed } of the rules: this program judges by { $here } and cannot compare
answer-verify-erased = { $count ->
    [one] The name or note of { $count } entry was erased: what was signed cannot be put together again
   *[other] The names or notes of { $count } entries were erased: what was signed cannot be put together again
}
answer-verify-unsealed = { $count ->
    [one] { $count } entry is not sealed yet
   *[other] { $count } entries are not sealed yet
}
answer-verify-counted = { $entries ->
    [one] { $entries } entry
   *[other] { $entries } entries
} in { $books ->
    [one] { $books } book
   *[other] { $books } books
}
answer-verify-after = { $count ->
    [one] { $count } entry after sign-off No. { $number }
   *[other] { $count } entries after sign-off No. { $number }
}
answer-verify-pages = This file is damaged: entries may be missing that nothing here tells of
answer-verify-altered = Entry { $seq } of log { $log } is not as it was written
answer-verify-cut-off = Entry { $seq } of log { $log }, noted here as its last, is missing
answer-verify-removed = Log { $log } is missing: nothing of it is here
answer-verify-link = Entry { $seq } of log { $log } does not follow the one before it
answer-verify-seal = The seal at entry { $seq } of log { $log } does not hold
answer-verify-missing = Entry { $seq } of log { $log }, which sign-off No. { $number } covers, is missing
answer-verify-log-missing = Log { $log }, which sign-off No. { $number } covers, is missing
answer-verify-sign-off-seal = Sign-off No. { $number } has no seal that holds
answer-verify-limit-set = The limit set is not the one that sign-off No. { $number } names
answer-verify-model = What the entries give is not what sign-off No. { $number } signed
answer-verify-gap = { $count ->
    [one] { $count } entry in between is missing
   *[other] { $count } entries in between are missing
}
answer-verify-no-data = No data of a schedule is attached to this PDF
answer-verify-data = The attached data is not as this program writes it
answer-verify-digest = The attached data does not have the digest that stands on its pages
answer-verify-borne-out = Sign-off No. { $number } in the attached data is not borne out by its seal
answer-verify-pages-equal = The pages are those of the attached data
answer-verify-pages-not-equal = The pages are not those of the attached data
answer-verify-pages-other-version = Data verified, pages not comparable: another version made them
answer-verify-parts-missing = Parts that are missing here: { $parts }. The whole cannot be verified without them
answer-verify-parts-mixed = These parts are not of one schedule
answer-missing-readings = { $count ->
    [one] { $count } required pair has no reading
   *[other] { $count } required pairs have no reading
}
answer-cautions-confirmed = Read and confirmed by { $person } on { $at }
answer-cautions-not-confirmed = Cautions: not confirmed by { $people }
answer-cautions-confirmed-by-nobody = Cautions: not confirmed by anyone

## Places and small parts

answer-circuit-name = { $description ->
    [none] { $reference }
   *[other] { $reference } { $description }
}
answer-place = { $board } · { $circuit } · { $pair }
answer-source-and-tag = { $source } ({ $tag })
answer-state-at = { $volts }: { $state }
answer-taken-back = Taken back
answer-tested-after-all = Tested after all
answer-reading-replaced = Recorded { $reading } in its place
answer-reading-withdrawn = Withdrew { $reading }
answer-asked-for = Asked for a new reading: { $place }
answer-accepted-now = Accepted: { $place }
answer-asked = { $person } asks for a new reading: { $reason }
answer-request = { $person } asks for a new reading ({ $at }): { $reason }
answer-request-answered = { $person } asked for a new reading ({ $at }): { $reason }. Answered since
answer-accepted = Accepted by { $person } ({ $at }): { $reason }
answer-accepted-before = Accepted before by { $person } ({ $at }): { $reason }. Something graver was found since
answer-request-withdrawn = The request is withdrawn
answer-acceptance-withdrawn = No longer accepted
answer-why-mistyped = mistyped
answer-why-repaired = repaired, tested again
answer-why-repeated = repeated

## What a verification says

answer-kind-calibration = Calibration by a laboratory
answer-kind-bench = Bench verification
answer-verification-failed-whole = Failed on the whole
answer-statement-as-found = { $volts } as found: { $what }
answer-statement-both = { $volts } as found and as left: { $what }
answer-statement-as-left = { $volts } as left: { $what }
answer-outcome-good = good
answer-outcome-failed = failed
answer-outcome-conditional = failed on condition
answer-outcome-not-stated = not stated
answer-verification-failed-unsaid = in what is not stated
answer-verification-point-failed = { $known } shown as { $shown }
answer-verification-voltage-failed = output only { $volts } at { $load }
answer-holds = indications hold { $intervals }
answer-conforms-yes = { $edition ->
    [none] conforms to the tester standard
   *[other] conforms to { $edition }
}
answer-conforms-no = { $edition ->
    [none] does not conform to the tester standard
   *[other] does not conform to { $edition }
}
answer-conforms-not-all-tested = { $edition ->
    [none] tester standard: not all tested
   *[other] { $edition }: not all tested
}
answer-conforms-not-stated = { $edition ->
    [none] tester standard: not stated
   *[other] { $edition }: not stated
}
answer-operating-uncertainty = operating uncertainty { $percent }

## What stands on the schedule's first page

answer-origin = Origin
answer-policy-value = Values
answer-policy-tester = Testers
answer-rules-also = Also chosen, to settle
answer-rules-also-set = Limit set: { $title } · { $id } · version { $version } · SHA-256 { $sha256 }
answer-other-value = other value, to settle: { $value }
answer-circumstance = { $what } { $value }
answer-spd-stays = surge protector stays connected
answer-circuit-taken-away = circuit taken away, its readings stay
answer-was = { $what } was { $before }
answer-at-time = { $at }: { $what }
answer-finding-two-values = { $count ->
    [one] { $count } reading has two values to settle
   *[other] { $count } readings have two values to settle
}
answer-finding-newer-version = { $count ->
    [one] { $count } reading needs a newer version to be judged
   *[other] { $count } readings need a newer version to be judged
}
answer-finding-forbidden = { $count ->
    [one] { $count } reading is of a pair the set forbids with its loads
   *[other] { $count } readings are of pairs the set forbids with their loads
}
answer-finding-no-tester = { $count ->
    [one] { $count } reading has no tester chosen
   *[other] { $count } readings have no tester chosen
}
answer-finding-barred = { $count ->
    [one] { $count } reading was taken with a barred tester
   *[other] { $count } readings were taken with a barred tester
}
answer-finding-below = { $count ->
    [one] { $count } reading is below its limit
   *[other] { $count } readings are below their limit
}
answer-finding-cannot-be-judged = { $count ->
    [one] { $count } reading cannot be judged
   *[other] { $count } readings cannot be judged
}
answer-finding-too-close = { $count ->
    [one] { $count } reading is too close to call
   *[other] { $count } readings are too close to call
}
answer-finding-tester-in-doubt = { $count ->
    [one] { $count } reading is in doubt: its tester failed afterwards
   *[other] { $count } readings are in doubt: their tester failed afterwards
}
answer-finding-good-afterwards = { $count ->
    [one] { $count } reading rests on a tester found good only afterwards
   *[other] { $count } readings rest on a tester found good only afterwards
}
answer-finding-not-proved = { $count ->
    [one] { $count } reading rests on a tester that was not proved
   *[other] { $count } readings rest on a tester that was not proved
}
answer-finding-lapsed = { $count ->
    [one] { $count } reading rests on a lapsed verification
   *[other] { $count } readings rest on a lapsed verification
}
answer-finding-not-confirmable = { $count ->
    [one] { $count } reading can no longer be confirmed: its tester was adjusted since
   *[other] { $count } readings can no longer be confirmed: their tester was adjusted since
}
answer-finding-other-voltage = { $count ->
    [one] { $count } reading was taken at another test voltage than asked
   *[other] { $count } readings were taken at another test voltage than asked
}
answer-finding-leads-in-doubt = { $count ->
    [one] { $count } reading was taken with leads in doubt
   *[other] { $count } readings were taken with leads in doubt
}
answer-finding-above-limit = { $count ->
    [one] { $count } reading is above what its tester can show
   *[other] { $count } readings are above what their tester can show
}
answer-finding-far-below = { $count ->
    [one] { $count } reading is far below like pairs on its board
   *[other] { $count } readings are far below like pairs on their board
}
answer-finding-more-digits = { $count ->
    [one] { $count } reading with more digits than its tester shows
   *[other] { $count } readings with more digits than their tester shows
}
answer-finding-no-such-conductor = { $count ->
    [one] { $count } reading on a conductor its circuit does not have
   *[other] { $count } readings on a conductor their circuit does not have
}
answer-finding-fewer-digits = { $count ->
    [one] { $count } reading has fewer digits than its tester shows
   *[other] { $count } readings have fewer digits than their tester shows
}
answer-finding-neutral = { $count ->
    [one] { $count } reading was taken with N not isolated from PE
   *[other] { $count } readings were taken with N not isolated from PE
}
answer-finding-no-quick-check = { $count ->
    [one] { $count } reading lacks the quick check this job asks for
   *[other] { $count } readings lack the quick check this job asks for
}
answer-finding-clock = { $count ->
    [one] { $count } reading has a doubtful time
   *[other] { $count } readings have a doubtful time
}
answer-finding-reduced = { $count ->
    [one] { $count } reading was taken at the reduced test voltage
   *[other] { $count } readings were taken at the reduced test voltage
}
answer-finding-leads-not-checked = { $count ->
    [one] { $count } over-range reading without a lead check that day
   *[other] { $count } over-range readings without a lead check that day
}
answer-finding-from-memory = { $count ->
    [one] { $count } reading is judged by a limit recalled from memory
   *[other] { $count } readings are judged by a limit recalled from memory
}
answer-finding-corrected = { $count ->
    [one] { $count } reading had its circumstances corrected
   *[other] { $count } readings had their circumstances corrected
}
answer-finding-not-tested = { $count ->
    [one] { $count } pair was not tested
   *[other] { $count } pairs were not tested
}
answer-finding-asked = { $count ->
    [one] { $count } new reading is asked for
   *[other] { $count } new readings are asked for
}
answer-finding-accepted = { $count ->
    [one] { $count } line to look at was accepted with a reason
   *[other] { $count } lines to look at were accepted with a reason
}
answer-finding-accepted-why = { $person }: { $reason }
answer-finding-gone = { $count ->
    [one] { $count } reading was withdrawn, replaced or not chosen
   *[other] { $count } readings were withdrawn, replaced or not chosen
}

## Without a window

answer-no-reading = no reading
answer-limit-reduced = { $volts } d.c. allowed, at least { $minimum }, where { $reasons }; { $source }
answer-limit-unsure = This figure is { $tag }: look it up in the publication before relying on it
answer-limit-no-item = This set has no figure of its own for: { $item }
answer-judged-sums = { $required ->
    [one] { $required } pair required
   *[other] { $required } pairs required
}: { $meets } meet, { $below } below, { $close } too close to call, { $unjudged } cannot be judged, { $missing } without a reading
answer-judged-testers = Testers of these: { $states }
answer-judged-state = { $count } { $state }
answer-judged-method = { $count ->
    [one] { $count } of them has a fault of method
   *[other] { $count } of them have a fault of method
}
answer-judged-stops = { $count ->
    [one] { $count } pair cannot stand like this
   *[other] { $count } pairs cannot stand like this
}
answer-judged-beside = { $count ->
    [one] Beside these { $count } reading of joined conductors or of a pair not required does not meet
   *[other] Beside these { $count } readings of joined conductors or of pairs not required do not meet
}
answer-judged-after = { $count ->
    [one] { $count } reading after equipment was connected does not meet
   *[other] { $count } readings after equipment was connected do not meet
}
answer-judged-unsure = { $count ->
    [one] Limits of circuit { $circuits } by { $source }: { $tag }. Look them up in the publication before relying on them
   *[other] Limits of circuits { $circuits } by { $source }: { $tag }. Look them up in the publication before relying on them
}
answer-judged-not-strict = Not every required pair meets, is proved, and has no fault of method
answer-judged-nothing-required = No pair is required: there is nothing in this job that could meet

## References.

answer-reference-saved = Saved { $name }
answer-reference-removed = Removed { $name }; what it proved stays on record
answer-reference-taken-away = taken away
answer-stated-expanded = U with its k
answer-stated-tolerance = A tolerance
