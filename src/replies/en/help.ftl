# Help and hints. The short help has five lines at most, a page twelve. What can be
# typed stands behind the last colon of a line, several things between " | ": a test types each.

help-start = Send a rig, then tap, RO and, if you read it, glass: { $rig } 180 12 | { $rig } 180 12 0
help-no-rigs = First add your rigs: add rig heron
help-sent = Last one wrong? Edit your message, or type: undo
help-about = What you just tried: help { $topic }
help-question = I'm waiting for an answer: { $question }
    To drop it, type: undo
help-everyday = Did a job: { $rig } flushed | { $rig } new resin
    Look it up: { $rig }? | fleet | history { $rig }
help-more-crew = More: help reading | help questions | help safety | help topics
help-more-lead = More: help rigs | help people | help safety | help topics
help-more-owner = More: help settings | help prices | help safety | help topics
help-no-page = I've no help on that.

# What stands behind "help" to get a page.
topic-reading = reading
topic-correct = correct
topic-flush = flush
topic-resin = resin
topic-membrane = membrane
topic-prefilters = prefilters
topic-questions = questions
topic-pictures = pictures
topic-rigs = rigs
topic-parts = parts
topic-people = people
topic-settings = settings
topic-prices = prices
topic-hours = hours
topic-units = units
topic-digest = digest
topic-sheets = sheets
topic-groups = groups
topic-words = words
topic-safety = safety
topic-data = data
topic-topics = topics

page-reading = Taking a reading, both feet on safe ground:
    1. Let the rig run 3 to 5 minutes.
    2. Rinse the cup in the water you're about to read. One meter for all.
    3. Read the tap, then the hose that feeds the resin (RO), then the glass.
    4. Send it in that order: { $rig } 180 12 0
    Tap and RO are enough: { $rig } 180 12
    In any order with labels: { $rig } RO 12 tap 180
    Cold water or weak pressure? Add it: { $rig } 180 12 8C 50psi
    Several rigs at once: { $rig } 180 12, { $other } 210 20
page-correct = Typed it wrong? Edit your message and I'll read it again. Or type:
    the right RO reading: *14
    both, once more: { $rig } 180 14
    the right rig: that was { $rig }
    undo it: undo
    This works for what you sent in the last 12 hours. What you undo stays on file, but no longer counts.
page-flush = Flushing rinses off what the membrane held back, so it lasts longer. At the end of the day open the flush valve for ten minutes, then text: { $rig } flushed
    A lead or owner, for all that worked today: all flushed
    I ask about rigs that worked and aren't flushed. A bare "done" answers me.
    Ask me again: { $rig } in 30 minutes
    Not out today: { $rig } not used
    A rig that sends water to waste all the time needs no flush. An owner or lead types: { $rig } flushes itself
page-resin = The resin takes what the membrane lets through. The glass should read 0; from about 10 ppm water leaves spots, so change the resin before the next window.
    How long it lasts: resin { $rig }? | resin picture { $rig }
    Water off and pressure out before you open it. Then, changed it: { $rig } new resin
    Repacked it: { $rig } resin repacked
    High at the glass right after a change? Water slips past loose resin, so repack it tight.
    Changes closer and closer together point to the membrane: membrane { $rig }?
page-membrane = Rejection is the share of dissolved solids that the membrane holds back. Tap 180 and RO 12 make 93.3%.
    It fades over months. A jump overnight is a hose, an O-ring or a fitting.
    Before you open a housing, turn the water off and let the pressure out.
    Its state and its date: membrane { $rig }?
    Changed it: { $rig } new membrane
    I think it's new, but it's the old one: { $rig } same membrane
    New O-ring: { $rig } new o-ring
    Put in preservative while parked: { $rig } preserved
    What the states mean: help words
page-prefilters = Sediment and carbon filters protect the membrane; chlorine that gets past worn-out carbon ruins it. Follow the maker's interval, sooner where the water is dirty.
    Before you open a housing, turn the water off and let the pressure out.
    Changed them: { $rig } new prefilters
    How often you change them: { $rig } prefilters every 90 days
page-questions = Ask me like this.
    How a rig is, and why: { $rig }? | why { $rig }?
    Its last readings, and its trend: history { $rig } | { $rig } trend?
    All rigs, and side by side: fleet | compare rigs
    When it needs a new one: membrane { $rig }? | resin { $rig }?
    Whether it's flushed: is { $rig } flushed?
    Who sent something, and who didn't: who logged what | who has not logged?
    What to buy: what to buy?
    What was spent: what did { $rig } cost last year?
    What another price would change: what if resin costs 12?
    What a word means: what does due mean?
    As a picture: help pictures
page-pictures = What I can draw and write for you.
    The fleet: picture
    A rig's readings and trend: picture { $rig }
    How its resin lasts: resin picture { $rig }
    When a new membrane is cheapest: money picture { $rig }
    The week as a spreadsheet, for owners and leads: spreadsheet
    What falls due, for a calendar: calendar
page-rigs = An owner or lead types:
    Add rigs: add rig lynx | add rigs lynx, wolf
    Another name for it: rename { $rig } to wren
    Remove a rig (readings are kept): remove rig { $rig }
    All about one, asked one by one: set up { $rig }
    Same kit as another: { $other } same as { $rig }
    Another name for it: { $rig } also called H
    What it's made of: help parts
    Everybody types:
    Yours, so two numbers are enough: my rig { $rig } | no rig
    Another one for today: I'm on { $rig } today
page-parts = What a rig is made of. An owner or lead types:
    No membrane, you read tap and glass: { $rig } di only
    It does have a membrane, or more than one: { $rig } has a membrane | { $rig } 2 membranes
    No resin, you read tap and RO: { $rig } RO only
    RO with resin after it: { $rig } RO and DI
    What one membrane is rated for: { $rig } rated 150 gpd at 77 F 60 psi
    Resin it holds: { $rig } resin 25 litres
    Resin bottle upright, or on its side: { $rig } upright | { $rig } lying
    Water on a working day: { $rig } 600 litres a day
    Flush valve turned by hand, or none: { $rig } flushed by hand | { $rig } flushes itself
    What's set: { $rig } settings
page-people = Crew send readings. Leads also look after rigs and crew. Owners also set the outfit up.
    A link for crew, 7 days: invite
    For a lead or another owner: invite lead | invite owner
    For two days and one person: invite 2 days, once
    Open invites, and how to end them: invites | cancel invites
    Who is in: people
    Remove someone: remove NAME
    Roles: make NAME lead | make NAME owner | make NAME crew
    Hand over to someone else: hand over to NAME
    Leave: leave
page-settings = The owner types:
    I ask one thing at a time, and carry on where we stopped: set up
    Name and zone: name Blue Ladder | zone Europe/Madrid
    Where you work; sets units, currency and seasons: country US
    Limits for fading, plan a new one, worn out: wearing line 90 | due line 85 | spent line 80
    From what your glass spots: spot line 5
    Everything that's set: settings
    Back to the default: due line default
    More: help prices | help hours | help units | help parts
    Your own language, for everybody: language español | language automatic
page-prices = The owner types:
    What you pay with: currency EUR
    Resin, by the litre or the bag: resin price 9 | resin 25 litres costs 180
    One membrane, one change of prefilters: membrane price 180 | prefilter price 25
    Labour for a new membrane, for new resin: labour 40 | resin labour 15
    For one rig only: { $rig } resin price 12
    Then ask.
    When a new membrane pays: membrane { $rig }?
    What the next year will bring: year ahead | year ahead file
    What another price would change: what if resin costs 12? | what if a membrane costs 250?
    What was spent: what did { $rig } cost last year?
page-hours = When I message you. The owner types:
    End of the day, when I ask about the flush: day ends 17:00 | saturday ends 13:00
    Days you work: working days mon-sat
    Busy months: busy june-august 150 %
    The Monday digest: digest monday 7:00 | digest off | digest on
    Asking about the flush: reminders off | reminders on
    What falls due in between: warnings off | warnings on
    Days off: { $rig } at the garage until Friday | we're closed 24 December to 2 January
    The night, when I keep quiet: quiet hours 20:00-7:00 | quiet hours off
    For one rig only: { $rig } day ends 15:00 | { $rig } reminders off
page-units = Bare numbers are ppm (the same as mg/L). A meter in microsiemens: { $rig } 360us 24us
    Decimals with point or comma: { $rig } 180 12.5 | { $rig } 180 12,5
    Add temperature and pressure: { $rig } 180 12 8C 3.5bar | { $rig } 180 12 46F 50psi
    The owner sets what counts without a unit:
    The meters: meter ppm | meter uS 0.5
    Degrees: degrees C | degrees F
    What I answer in: pressure psi | pressure bar | volume litres | volume gallons
page-digest = On Monday morning the owner hears about all rigs: what to buy, what to fix, who stopped logging.
    At any time: digest | digest more
    As files: spreadsheet | calendar
    In between: fleet | what to buy? | who has not logged?
    Ask me later about something due, or not at all: { $rig } membrane in a week | { $rig } membrane not now
    Another hour, or none: help hours
page-sheets = Files in and out. The owner types:
    Everything as files: export
    Readings, jobs and rigs from a sheet of yours: import
    Then, once you've seen what it says: import now | drop import
    Dates such as 3/4/2026, which comes first: day first | month first
    Undo the last import: undo import
    Who changed what: changes
    Delete everything; within a week you can change your mind: close outfit | keep outfit
page-groups = In a group chat I read readings and keep quiet about everything else.
    If I'm silent there, the platform hides plain messages from bots ("privacy mode"). Whoever made the bot switches that off and adds me again, or the group makes me an administrator.
    Until then reply to me, or begin with a slash: /fleet
    Questions I ask there are for whoever wrote.
    An owner or lead makes it the crew's chat, or not any more: link crew chat | unlink crew chat
page-words = good: nothing to do.
    fading: it wears, carry on.
    plan a new one: a new membrane may pay.
    worn out: check for leaks, then fit a new one.
    too early to tell: I need more readings.
    look for a leak: it jumped, and wear doesn't.
    tap (feed): what goes in.
    RO: after the membrane.
    glass: after the resin.
    One word in full: what does due mean?
page-safety = Take readings and text with both feet on safe ground, never from a ladder or near an edge.
    Turn the water off and let the pressure out before you open a housing.
    Wear gloves and eye protection with preservative and cleaning chemicals. Never mix them, follow the label.
    Purified water isn't drinking water.
    Ice ruins membranes and splits housings. A dried-out membrane is ruined too.
    Check local rules before you run waste water anywhere or connect to a tap (backflow). Leave plumbing to a licensed plumber.
    The figures advise; you decide.
page-data = I keep readings, jobs done on rigs, and the outfit's settings. Of you: the platform's id, your first name and language, nothing else.
    No other outfit sees yours. What you undo stays on file, marked.
    Delete what I know about you: forget me
    For the owner. Take everything with you, and bring it in: export | import
    See who changed what: changes
    Delete old rows, or none: keep 5 years | keep everything
    Delete all of it: close outfit
page-topics = Type help and one of these, or ask, like: help flush | help why flush?
    Readings: reading, correct, units, groups.
    Water: flush, resin, membrane, prefilters, safety.
    Answers: questions, pictures, digest, words.
    Rigs and people: rigs, parts, people.
    The outfit: settings, prices, hours, sheets, data.

# Wrong input meets the nearest right example. One short hint, not a lecture.
hint = I log water readings. Like this: { $rig } 180 12   More: help
hint-number = A reading is two numbers, tap first: { $rig } 180 12
hint-rig = What about { $name }? A reading: { $rig } 180 12   How it is: { $rig }?
hint-flush = When it's done, type: { $rig } flushed
hint-resin = When it's done, type: { $rig } new resin   More: help resin
hint-membrane = When it's changed, type: { $rig } new membrane   How it is: membrane { $rig }?
hint-prefilters = When it's done, type: { $rig } new prefilters
hint-like = Like this: { $example }
hint-now = Now: { $example }. To change it, type it with another value.

# Examples for commands that were half typed.
try-add-rigs = add rig lynx
try-remove-rig = remove rig { $rig }
try-own-rig = my rig { $rig }
try-today = I'm on { $rig } today
try-name = name Blue Ladder
try-zone = zone Europe/Madrid
try-roles = make NAME lead | make NAME owner | make NAME crew
try-hand-over = hand over to NAME
try-remove-person = remove NAME
try-picture = picture | picture { $rig }
try-resin-picture = resin picture { $rig }
try-money-picture = money picture { $rig }
try-same-as = { $rig } same as { $other }
try-parts = { $rig } di only | { $rig } RO only | { $rig } RO and DI
try-link-chat = link crew chat
try-invites = invites | cancel invites
try-export = export
try-compare = compare rigs | compare { $rig } and { $other }
try-why = why { $rig }?
try-later = { $rig } in 30 minutes
try-words = what does due mean? | help words

voice = I can't listen to voice notes. Type it: { $example }
picture = I can't read pictures. Type it: { $example }
trouble = Something went wrong at my end, and this message wasn't counted. Please type it again.
press-closed = That question is closed. Type it instead.
press-not-yours = That button is for somebody else.
press-outdated = That button is from before an update. Type it instead, or ask again.

# Languages.
language-set = From now on I answer you in English.
language-now = I answer you in English. En español: idioma español
language-unknown = I answer in English and Spanish. Like this: language English | language español
