## Accounts of a hub

hub-role-recorder = Recorder
hub-role-reviewer = Reviewer
hub-role-office = Office
hub-role-needed = This needs the role { $role }. The office gives roles
hub-account-in = Has a password
hub-account-invited = Invited. The link works until { $until }
hub-account-out = No login

hub-audit-made = { $who } made the account of { $about }: { $role }
hub-audit-invited = { $who } made a link for { $about }
hub-audit-role = { $who } gave { $about } another role: { $role }
hub-audit-taken-away = { $who } took the login of { $about } away
hub-audit-password = { $who } set a password
hub-audit-wrong = A wrong password was given for { $about }
hub-audit-wrong-nobody = A password was given for a name that nobody has
hub-audit-logged-in = { $who } logged in
hub-audit-phone-code = { $who } asked for a code for a phone
hub-audit-phone-enrolled = { $about } was enrolled
hub-audit-phone-revoked = { $who } revoked { $about }
hub-audit-token-made = { $who } made the token { $about }
hub-audit-token-dropped = { $who } took the token { $about } away
hub-audit-phone-accepted = { $who } accepted what { $about } recorded
hub-audit-phone-dropped = { $who } threw away what { $about } recorded
hub-scope-calendar = Calendar of verifications due
hub-scope-lists = Lists of jobs, testers, recalls and readings not proved
hub-scope-papers = Schedules and job files
hub-scope-add_jobs = Adding jobs from job files
hub-token = { $scope }. Made by { $maker }, works until { $until }. { $used }
hub-token-ended = { $scope }. Made by { $maker }, ended on { $until }. { $used }
hub-token-unused = Not used yet
hub-token-used = Used last on { $used }
hub-calendar = Verifications due
hub-calendar-event = Verification due: { $tester }
