### What went wrong around the record, and what to do. One key a code of the door: failure-CODE.

failure-unexpected = Something went wrong inside. Nothing was lost: the record is as it was
failure-form = Look at the marked fields
failure-refused = This cannot be a reading
failure-unknown_operation = This version does not know that request. Use the version that made it
failure-bad_input = The request could not be read. Nothing was recorded
failure-not_found = That is not in the record of this device
failure-no_person = Say who records first
failure-no_tester = Choose a tester first
failure-no_over_range = Set the over-range limit on the tester's card first
failure-voltage_not_said = Say which test voltage the tester is set to first
failure-reason_needed = Say why in a few words
failure-nothing_to_undo = Nothing of yours to take back here
failure-to_settle = Two values are live here. Choose one first
failure-storage = The record could not be written. What was saved before is kept. Try again
failure-storage_full = Storage is full. Readings so far are saved. Free some space and try again
failure-record_newer = This record was made by a newer version. It opens for reading only
failure-record_damaged = The record does not read as it was written. Keep a copy of it and ask for help
failure-board_has_readings = This board holds readings. They stay, and so does it
failure-job_is_here = This job is already on this device. Use its bundle
failure-file_not_written = Could not write the file. Nothing was lost: the job is still on this device. Try another place
failure-not_a_job_file = This is not a job file
failure-job_file_newer = This job file was made by a newer version. Update to read it
failure-set_not_here = The limit set of this job is not on this device
failure-schedule = The schedule could not be typeset. The record is as it was
failure-page_not_there = The schedule has no such page
