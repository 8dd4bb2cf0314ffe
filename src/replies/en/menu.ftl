# The menu of commands, a line each: what comes back when it is tapped.

menu-fleet = All rigs at a glance
menu-history = The last readings of a rig
menu-undo = Undo the last thing you sent
menu-help = How to send a reading
menu-people = Who is in the outfit
menu-invite = A link for somebody new
menu-picture = The fleet as a picture
menu-digest = This week's jobs
menu-spreadsheet = The week as a spreadsheet
menu-settings = Prices, hours and other settings
