# Help and hints. The short help has five lines at most, a page twelve.

help-start = Text a rig and two readings, tap first: { $rig } 180 12
help-no-rigs = First the rigs: add rig heron
help-sent = Last one wrong? Edit your message, or type: undo
help-about = What you just tried: help { $topic }
help-question = I am waiting for an answer: { $question }
    To drop it, type: undo
help-everyday = With the glass as third: { $rig } 180 12 0
    Done something: { $rig } flushed - { $rig } new resin
    Look it up: { $rig }? - fleet - history { $rig }
help-more-crew = More: help reading - help flush - help words
help-more-lead = More: help rigs - help people - help reading - help words
help-more-owner = More: help settings - help rigs - help people - help reading
help-no-page = No help on that. There is help on: reading, correct, flush, resin, membrane, prefilters, rigs, people, settings, units, digest, groups, words, safety, data.
    Like this: help flush

# What stands behind "help" to get a page.
topic-reading = reading
topic-correct = correct
topic-flush = flush
topic-resin = resin
topic-membrane = membrane
topic-prefilters = prefilters
topic-rigs = rigs
topic-people = people
topic-settings = settings
topic-units = units
topic-digest = digest
topic-groups = groups
topic-words = words
topic-safety = safety
topic-data = data

page-reading = Taking a reading, both feet on the ground:
    1. Let the rig run 3 to 5 minutes.
    2. Rinse the cup in the water you are about to read. One meter for all.
    3. Read the tap, then the hose that feeds the resin (RO), then the glass.
    4. Text it in that order: { $rig } 180 12 0
    Tap and RO are enough: { $rig } 180 12
    In any order with labels: { $rig } RO 12 tap 180
    Cold water or weak pressure? Add it: { $rig } 180 12 8C 50psi
page-correct = A slip? Edit your message, and it is read again. Or type:
    the right RO reading: *14
    both, once more: { $rig } 180 14
    the right rig: that was { $rig }
    take it back: undo
    This goes for what you sent in the last 12 hours. What is taken back stays in the record, but no longer counts.
page-flush = Flushing rinses off what the membrane held back. At the end of the day open the flush valve, ten minutes, then text: { $rig } flushed
    I ask about rigs that worked and are not flushed. A bare "done" answers me.
    Not out today: { $rig } not used
    A rig that sends water to waste all the time needs no flush. An owner or lead types: { $rig } flushes itself
page-resin = The resin takes what the membrane lets through. From about 10 ppm at the glass on, water leaves spots: change it before the next window.
    Changed it: { $rig } new resin
    Packed it anew: { $rig } resin repacked
    High at the glass right after a change? Water slips past loose resin: repack it tight.
    Changes that come ever closer together point to the membrane: membrane { $rig }?
page-membrane = Rejection is the share of dissolved solids that the membrane holds back: tap 180, RO 12 is 93.3 %.
    It fades over months. A jump overnight is a hose, an O-ring or a fitting.
    Its state and its date: membrane { $rig }?
    Changed it: { $rig } new membrane
    New O-ring: { $rig } new o-ring
    Before you open a housing: water off, relieve the pressure.
    The states: help words
page-prefilters = Sediment and carbon filters shield the membrane; chlorine that gets past a spent carbon filter ruins it. Follow the maker's interval, sooner where the water is dirty.
    Changed them: { $rig } new prefilters
    Before you open a housing: water off, relieve the pressure.
page-rigs = An owner or lead types:
    add rig heron - several: add rigs heron, otter
    remove rig heron (its readings are kept)
    { $rig } di only - no membrane: tap and glass are read
    { $rig } has a membrane - { $rig } RO only: no resin
    { $rig } flushes itself - no reminders
    { $rig } flushed by hand
    All about one, asked one by one: set up { $rig } - otter same as { $rig }
    Yours, so that two numbers are enough: my rig { $rig }
page-people = Crew send readings. Leads also look after rigs and crew. Owners also set the outfit up.
    A link for crew, 7 days: invite
    For a lead or another owner: invite lead - invite owner
    For two days, for one: invite 2 days, once - what is open: invites - cancel invites
    Who is in: people - out again: remove NAME
    Roles: make NAME lead - make NAME owner - hand over to NAME
    Out yourself: leave
page-settings = The owner types:
    set up - asks one thing at a time, and goes on where it stopped
    name Blue Ladder
    zone Europe/Madrid
    settings
    day ends 17:00
    Everybody for themselves: language español - my rig { $rig }
page-units = Bare numbers are ppm (the same as mg/L). A meter in microsiemens: { $rig } 360us 24us
    Degrees are the outfit's own, or say which: 8C, 46F
    Pressure: 50psi, 3.5bar, 345kpa
    Decimals with point or comma: 0.5 or 0,5
page-digest = On Monday morning the owner gets one message about all rigs: what to buy, what to fix, who is quiet.
    In between: fleet - what to buy? - who has not logged?
page-groups = In a group chat I read readings and keep quiet about everything else.
    If I am silent there: the platform hides plain messages from bots ("privacy mode"). Whoever made the bot switches that off and adds me again, or the group makes me an administrator.
    Until then begin with a slash, as in /fleet, or reply to me.
    Questions I ask there are for whoever wrote.
    An owner or lead makes it the crew's chat: link crew chat
page-words = sound: all well. wearing: fading, go on. due: weigh a new one. spent: done. unproven: too few readings. check first: it jumped, look for a leak.
    tap (feed): what goes in. RO: behind the membrane. glass: behind the resin.
    One word in full: what does due mean?
page-safety = Read and text from safe footing, never from a ladder or an edge.
    Relieve the pressure before you open a housing.
    Preservative and cleaning chemicals: gloves and goggles, never mix, follow the label.
    Purified water is not drinking water.
    Frost ruins membranes and splits housings.
    Where waste water may go, and backflow protection: local code, licensed plumbers.
    The figures advise; you decide.
page-data = Kept: readings, what was done to rigs, and the outfit's settings. Of you: the platform's id, your first name and language, nothing else.
    No other outfit sees yours. What is taken back stays in the record, marked.
    Out of it for good: forget me
    The owner takes all of it away (export), brings it in (import), sees who changed what (changes), can have old rows deleted (keep 5 years), or all of it (close outfit).

# Wrong input meets the nearest right example. One short hint, not a lecture.
hint = I read water. Like this: { $rig } 180 12   More: help
hint-number = Two numbers make a reading, tap first: { $rig } 180 12
hint-rig = What about { $name }? A reading: { $rig } 180 12   How it is: { $rig }?
hint-flush = Once it is done, type: { $rig } flushed
hint-resin = Once it is done, type: { $rig } new resin   More: help resin
hint-membrane = Once it is changed, type: { $rig } new membrane   How it is: membrane { $rig }?
hint-prefilters = Once it is done, type: { $rig } new prefilters
voice = I cannot listen to voice notes. Type it: { $example }
picture = I cannot read pictures. Type it: { $example }
trouble = Something went wrong on my side, and this message was not counted. Please type it again.
press-closed = That question is closed. Type it instead.
press-not-yours = That button is for somebody else.

# Languages.
language-set = From now on I answer you in English.
language-now = I answer you in English. En español: idioma español
language-unknown = I answer in English and Spanish. Like this: language English - language español
