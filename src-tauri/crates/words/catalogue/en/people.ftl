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
