### Headings and sentences that stand only on papers.

papers-title = Schedule of insulation resistance readings
papers-demo = Invented demonstration data
papers-not-signed = Not signed
papers-signed = Signed as No. { $number } by { $name }, { $time }
papers-signed-after = Signed as No. { $number } by { $name }, { $time }; { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    } after sign-off
papers-signed-otherwise = Signed as No. { $number } by { $name }, { $time }, but not as it stands here
papers-signed-in-doubt = { $count ->
    [one] Since sign-off No. { $number }, { $count } reading has come into doubt
   *[other] Since sign-off No. { $number }, { $count } readings have come into doubt
}
papers-sign-off = Sign-off
papers-scope = This schedule covers insulation resistance only and is no certificate of the installation.
papers-part = Part { $number } of { $of }
papers-page = Page { $page } of { $pages }
papers-fingerprint = Fingerprint { $fingerprint }
papers-own-fingerprint = Digest of this paper { $fingerprint }
papers-record-fingerprint = Fingerprint
papers-own-digest = Digest of this paper (SHA-256)
papers-sign-to-do = to do
papers-sign-done = recorded
papers-sign-look = look
papers-sign-stop = stop
papers-done-means = “Recorded” says only that a reading is on record and nothing odd was found about it.

papers-job = Job
papers-place = Place
papers-boards = Boards
papers-parts = Parts and their boards
papers-as-of = As of
papers-times = Times in { $offset }
papers-limit-set = Limit set
papers-version = version { $version }
papers-rules = Rules
papers-rules-version = version { $version }
papers-digest-set = SHA-256 of the limit set
papers-digest-whole = SHA-256 of the whole schedule
papers-digest-record = SHA-256 of the record
papers-digest-part = SHA-256 of this part
papers-count-readings =
    { $count ->
        [one] { $count } reading
       *[other] { $count } readings
    }
papers-count-look =
    { $count ->
        [one] { $count } line to look at
       *[other] { $count } lines to look at
    }
papers-count-accepted =
    { $count ->
        [one] { $count } line accepted with a reason
       *[other] { $count } lines accepted with a reason
    }
papers-accepted = accepted by { $person }, { $time }: { $reason }
papers-count-stop =
    { $count ->
        [one] { $count } line that stops a sign-off
       *[other] { $count } lines that stop a sign-off
    }
papers-count-not-tested =
    { $count ->
        [one] { $count } pair not tested
       *[other] { $count } pairs not tested
    }
papers-count-missing =
    { $count ->
        [one] { $count } pair missing
       *[other] { $count } pairs missing
    }
papers-count-past =
    { $count ->
        [one] { $count } reading withdrawn, replaced or not chosen
       *[other] { $count } readings withdrawn, replaced or not chosen
    }

papers-findings = To look at
papers-findings-none = Nothing to look at.
papers-findings-in-part-one = What is to be looked at in the whole job stands in part 1.
papers-finding-more =
    { $count ->
        [one] and { $count } more, marked in the schedule
       *[other] and { $count } more, marked in the schedule
    }
papers-line-numbers = No. { $numbers }
papers-finding-why = { $place }: { $reason }
papers-finding-board =
    { $count ->
        [one] { $board }, circuit { $circuits }
       *[other] { $board }, circuits { $circuits }
    }
papers-testers = Testers and the verifications relied on
papers-testers-more = Their ranges, accuracy and lead checks stand at the end.
papers-testers-detail = Testers: ranges, accuracy, lead checks
papers-testers-none = No tester was chosen for any reading.
papers-serial = serial number { $serial }
papers-serial-none = without a serial number
papers-verifications-none = No verification on record.
papers-recorded = put on record { $time } by { $person }
papers-replaced-characters = Characters this typeface does not hold are printed as “{ $sign }”; the attached data holds them unchanged.

papers-shortened = Texts longer than a line holds end in “…”; the attached data holds them whole.

papers-board = Board
papers-no-circuits = Boards without circuits: { $boards }
papers-no-lines = Nothing recorded and nothing required.
papers-column-number = No.
papers-column-pair = Pair
papers-column-reading = Reading
papers-column-voltage = Test voltage d.c.
papers-column-limit = Minimum
papers-column-judgement = Judgement
papers-column-tester = Tester and its state
papers-column-time = Time
papers-column-person = Person
papers-not-tested = Not tested: { $reason }
papers-missing = required; nothing recorded
papers-missing-lines = required; nothing recorded ({ $numbers })
papers-on-each-line = on each line: { $remarks }
papers-measure-supply = { $measure }, supply { $supply }
papers-continued = continued
papers-no-limit = none stated
papers-no-tester = No tester chosen
papers-source = Limits from { $source }
papers-source-of-circuit = limits from { $source }
papers-source-unmarked = Limits from { $source } unless another source is named
papers-note = Note: { $note }
papers-corrected = corrected, see the end
papers-in-place-of = in place of No. { $number }: { $reason }

papers-past = Readings withdrawn, replaced or not chosen
papers-corrections = Corrected readings
papers-column-where = Board, circuit, pair
papers-column-what = What became of it, and why
papers-column-correction = Correction, and why
papers-column-by = By
papers-column-taken = Taken
papers-withdrawn = Withdrawn: { $reason }
papers-not-chosen = Not chosen: { $reason }
papers-replaced = Replaced: { $reason }
papers-replaced-by = Replaced by No. { $number }: { $reason }
papers-correction = { $sentence } ({ $reason })
papers-where = { $board }, circuit { $circuit }, { $pair }

papers-signing = Signing by hand
papers-signing-covers = Nobody has signed this paper in the program. Who signs it here by hand signs for what stands on it, fingerprint { $fingerprint }, and for nothing recorded later: the recorder, that the readings are what the testers showed; the reviewer, that it was read through with everything it lists to look at. Neither says anything about what it does not list, or whether a circuit may be energised.
papers-signing-covers-signed = The sign-off in the program is a typed name, sealed by the key of a device; the attached data holds it. Who signs here by hand signs for what stands on this paper, fingerprint { $fingerprint }, and for nothing recorded later: the recorder, that the readings are what the testers showed; the reviewer, that it was read through with everything it lists to look at. Neither says anything about what it does not list, or whether a circuit may be energised.
papers-signing-recorder = Recorder
papers-signing-reviewer = Reviewer
papers-signing-name = Name
papers-signing-date = Date
papers-signing-signature = Signature

papers-attached = Report model this schedule was made from

papers-sheet-readings = Readings
papers-sheet-about = About
papers-sheet-data = Data
papers-column-board = Board
papers-column-circuit = Circuit
papers-column-description = Description
papers-column-nominal = Nominal voltage
papers-column-measure = Protective measure
papers-column-conductors = Conductors
papers-column-stage = Stage
papers-column-status = Status
papers-column-comparator = Comparator
papers-column-digits = Digits
papers-column-unit = Unit
papers-column-source = Source of minimum
papers-column-sign = Sign
papers-column-remarks = Remarks
papers-column-conditions = Conditions of the circuit
papers-column-tester-serial = Serial number
papers-column-reason = Reason
papers-column-replaced-by = Replaced by No.
papers-column-changed-by = Changed by
papers-column-changed-at = Changed at
papers-status-current = current
papers-status-not-tested = not tested
papers-status-missing = missing
papers-status-withdrawn = withdrawn
papers-status-replaced = replaced
papers-status-not-chosen = not chosen
