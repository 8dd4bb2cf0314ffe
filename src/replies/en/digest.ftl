# The Monday digest, and what is said between two of them.

## Days and amounts

tomorrow = tomorrow
by-day = { $ahead ->
    [0] today
    [1] by tomorrow
   *[other] by { $day }
  }
since-day = { $ago ->
   *[other] since { $day }
  }
on-day = { $ago ->
    [0] { $day }
    [1] { $day }
   *[other] on { $day }
  }

## Names in a row

digest-and-more = { $names } and { $count } more
digest-rigs = { $count ->
    [one] 1 rig
   *[other] { $count } rigs
  }
digest-readings = { $count ->
    [0] no readings
    [one] 1 reading
   *[other] { $count } readings
  }
digest-short = { $rig } { $fact }

## Headline

digest-headline-one = { $first }.
digest-headline-two = { $first }, { $second }.
digest-no-readings = No reading { $since }, so nothing new to tell. Get the rigs read today.
digest-no-readings-rest = No reading { $since }, so nothing new to tell.
digest-no-readings-ever = No readings yet. Two numbers a day are enough: { $rig } 180 12
digest-calm = { $count ->
    [one] All well: your rig wants nothing this week.
   *[other] All well: none of the { $count } rigs wants anything this week.
  }
digest-calm-unread = { $count ->
    [one] The rig that was read wants nothing; { $unread } sent no reading.
   *[other] The { $count } rigs that were read want nothing; { $unread } sent no reading.
  }
digest-only-to-buy = Nothing to mend this week, only something to buy.
digest-wants-change-resin = { $count ->
   *[other] { $rigs } will spot without new resin
  }
digest-wants-repack-resin = { $count ->
    [one] { $rigs } wants its resin repacked
   *[other] { $rigs } want their resin repacked
  }
digest-wants-resin-soon = { $count ->
    [one] { $rigs } wants resin this week
   *[other] { $rigs } want resin this week
  }
digest-wants-find-leak = { $count ->
    [one] { $rigs } wants a spanner
   *[other] { $rigs } want a spanner
  }
digest-wants-new-membrane = { $count ->
    [one] { $rigs } is due for a membrane
   *[other] { $rigs } are due for membranes
  }
digest-wants-plan-membrane = { $count ->
    [one] { $rigs } has a membrane to weigh
   *[other] { $rigs } have membranes to weigh
  }
digest-wants-prefilters = { $count ->
    [one] { $rigs } wants prefilters
   *[other] { $rigs } want prefilters
  }
digest-wants-flush = { $count ->
    [one] { $rigs } goes unflushed
   *[other] { $rigs } go unflushed
  }
digest-wants-ask-membrane = { $count ->
    [one] one question about { $rigs }
   *[other] questions about { $rigs }
  }
digest-wants-frost = frost is a risk at night
digest-wants-quiet-person = { $count ->
    [one] { $rigs } stopped logging
   *[other] { $count } people stopped logging
  }
digest-still = By the last readings:
digest-week = { $outfit }, { $from } to { $to }: { $rigs }, { $readings }.

## What to do: one rig. What, then why, by when, and what it saves or risks.

digest-change-resin = new resin before the next window
    { $ppm } ppm at the glass will spot
digest-repack-resin-spots = repack the resin tight before the next window
    { $ppm } ppm will spot; the bed is hardly used, so water slips past it
digest-repack-resin = repack the resin tight
    { $ppm } ppm at the glass from a bed hardly used: water slips past it
digest-resin-today = new resin today
    the bed is about used up
digest-resin-by = new resin { $by }
    the bed is about used up then
digest-resin-soon = new resin { $by }
    have it on the rig { $hand }, the bed may end early
digest-leak = find the leak, { $test }
    RO { $before } -> { $after } ppm { $since }
digest-leak-since = find the leak, { $test }
    it jumped { $since }
digest-leak-cost = { $said }, eats about { $money } of resin a month
digest-test-read-again = after one more reading with a rinsed cup
digest-test-hoses = hoses, fittings and bypass first
digest-test-orings = O-rings first
digest-test-chlorine = test for chlorine after the carbon first
digest-membrane-now = new membrane now
    waiting costs about { $money } a month
digest-membrane-pays = new membrane now
    it pays for itself
digest-membrane-between = plan a new membrane
    cheapest to change about { $likely } ({ $window })
digest-membrane-between-saves = plan a new membrane
    cheapest to change about { $likely } ({ $window }); waiting until it is spent costs about { $money } more
digest-membrane-weigh = weigh a new membrane
    it is at { $percent }; with your prices I can say when it pays
digest-membrane-weigh-later = weigh a new membrane
    it is at { $percent }; a few more readings will say when it pays
digest-window-now = now
digest-window-until = between now and { $late }
digest-window-between = between { $early } and { $late }
digest-prefilters-overdue = change the prefilters, due { $since }
    old carbon lets chlorine through to the membrane
digest-prefilters = change the prefilters { $by }
digest-flush = flush at the end of the day
    done on { $flushed } of { $worked } days last week
digest-ask-membrane = is there a new membrane in it?
    it reads like one { $since }; if so, type: { $rig } new membrane
digest-idle-flush = no reading for { $days } days
    if it stands, flush it; if it works, get it read
digest-idle-preserve = no reading for { $days } days
    if it stands, preserve the membrane: gloves, eye protection, follow the label
digest-frost-water = Frost: the water was down to { $water }
    drain the rigs or keep them warm at night: ice ruins a membrane and splits housings
digest-frost-season = Frost season: drain the rigs or keep them warm at night
    ice ruins a membrane and splits housings
digest-quiet-rig = no reading { $since }
    standing, or not logged?
digest-quiet-person = { $name }: no readings last week, ask why
    there were { $before } in the four weeks before
digest-deed = { $rig }: { $deed }
digest-open-since = { $said }; open { $since }

## What to do: several rigs

digest-many-change-resin = New resin before the next window, or the glass will spot
    { $rigs }
digest-many-repack-resin = Repack the resin tight, water slips past it
    { $rigs }
digest-many-resin-soon = New resin this week
    { $rigs }
digest-many-leak = Find the leaks: hoses, fittings, O-rings
    { $rigs }
digest-many-membrane = New membranes, and what a month's waiting costs
    { $rigs }
digest-many-membrane-weigh = Weigh new membranes, these are below their line
    { $rigs }
digest-many-plan-membrane = Plan new membranes, cheapest to change
    { $rigs }
digest-many-prefilters = Change prefilters
    { $rigs }
digest-many-flush = Flush at the end of the day
    { $rigs }
digest-many-ask-membrane = A new membrane that was not logged?
    { $rigs }; if so, type: { $rig } new membrane
digest-many-idle = Standing, or not logged? Flush what stands, preserve it after 30 days
    { $rigs }
digest-many-quiet-rig = No reading: standing, or not logged?
    { $rigs }
digest-many-quiet-person = Stopped logging: ask why
    { $rigs }
digest-short-ppm = ({ $ppm } ppm)
digest-short-month = now ({ $money })
digest-short-overdue = overdue { $since }
digest-short-jump = { $since } (RO { $before } -> { $after })
digest-short-flush = { $flushed } of { $worked } days
digest-short-days = { $days } days

## The end of the first message

digest-fleet = Membranes: { $states }.
digest-count-good = { $count } good
digest-count-fading = { $count } fading
digest-count-due = { $count } to plan for
digest-count-spent = { $count } worn out
digest-count-fault = { $count } with a leak to find
digest-count-unproven = { $count } too early to tell
digest-count-di = { $count } without
digest-buy = Two weeks' shopping: { $goods }.
digest-buy-sum = Two weeks' shopping: { $goods }, { $sum }.
digest-buy-partial = Two weeks' shopping: { $goods }, { $sum } and what has no price yet.
digest-good-resin = { $quantity } L of resin
digest-good-prefilters = { $count ->
    [one] 1 set of prefilters
   *[other] { $count } sets of prefilters
  }
digest-good-membrane = { $count ->
    [one] 1 membrane
   *[other] { $count } membranes
  }
digest-caution-pressure = Before opening a housing: water off, pressure relieved.
digest-more = More

## More

digest-then-title = After these
digest-table-title = Fleet, most urgent first (points a year, resin in working days)
digest-row = { $rig } { $facts }
digest-row-level = { $percent }{ $basis }, { $state }
basis-corrected = { " " }at 12 °C
digest-row-jump = { $percent }, { $state } (membrane alone { $alone })
digest-row-glass = glass { $ppm } ppm
digest-row-di = resin only
digest-row-trend = loses { $points } a year
digest-row-resin = resin { $days } d
digest-row-resin-out = resin used up
digest-row-flushes = flushed { $done }/{ $due }
digest-row-last = last read { $on }
digest-row-never = never read
digest-row-aside = { $count ->
    [one] 1 reading set aside
   *[other] { $count } readings set aside
  }
digest-table-left = and { $count } more, in the spreadsheet
digest-table-calm = Nothing to do: { $rigs }
digest-calm-name = { $rig } { $percent } %
digest-shopping-title = Shopping for two weeks
digest-purchase = { $good }: { $rigs }
digest-purchase-cost = { $good }, { $cost }: { $rigs }
digest-litres-for = { $rig } { $quantity }
digest-shopping-total = Sum: { $sum }
digest-shopping-unpriced = What has no price yet is in no sum. To see the prices, type: settings
digest-shopping-weigh = A membrane to weigh (prices or readings are missing): { $rigs }
digest-shopping-uncounted = Resin that I cannot count (size, litres a day or last change not told): { $rigs }
digest-shopping-unlogged = Prefilters never logged: { $rigs }
digest-quiet-rigs = Not read last week: { $rigs }
digest-quiet-rig-since = { $rig } ({ $since })
digest-quiet-people = Stopped logging, with readings in the four weeks before: { $people }
digest-quiet-name = { $name } ({ $count })
digest-jumps-opened = RO jumped: { $rigs }
digest-jumps-closed = RO back to normal: { $rigs }
digest-jump = { $rig } { $on } ({ $before } -> { $after } ppm)
digest-jump-closed = { $rig } { $on } (was at { $after } ppm)
digest-followed-title = Asked for last Monday
digest-followed-done = Done: { $items }
digest-followed-open = Open: { $items }
digest-followed-said = Said to be done, but the readings do not show it: { $items }
digest-followed-gone = Not needed any more: { $items }
digest-followed-name = { $name } ({ $what })
digest-noun-resin = resin
digest-noun-repack = repacking
digest-noun-leak = leak
digest-noun-membrane = membrane
digest-noun-prefilters = prefilters
digest-noun-flush = flushing
digest-noun-question = membrane question
digest-noun-idle = idle
digest-noun-readings = readings

## Between two digests: three short lines at most

note-resin-done = { $rig }: change the resin before the next window.
    { $ppm } ppm at the glass will spot.
note-resin-low = { $rig }: resin likely runs out { $by }.
    Have a fill on the rig and watch the glass: from 10 ppm it spots.
note-resin-low-ppm = { $rig }: resin likely runs out { $by }.
    Glass { $ppm } ppm last time; from 10 ppm it spots. Have a fill on the rig.
note-frost-water = Frost: the water was down to { $water }.
    Drain the rigs tonight or keep them warm.
note-frost-season = Frost season.
    Drain the rigs on cold nights or keep them warm.
note-membrane-costs = { $rig } { $percent }: a new membrane pays now.
    Waiting costs about { $money } a month. This is the second Monday in a row that says so.
note-membrane-pays = { $rig } { $percent }: a new membrane pays now.
    This is the second Monday in a row that says so.
note-membrane-weigh = { $rig } { $percent }: weigh a new membrane against the resin it saves.
    Below its line for the second Monday in a row.
note-membrane-weigh-prices = { $rig } { $percent }: weigh a new membrane against the resin it saves.
    Below its line for the second Monday in a row. With your prices I can say when it pays.
note-idle-5 = { $rig } has stood for { $days } days.
    Flush it ten minutes to waste, and again every week.
note-idle-14 = { $rig } has stood for { $days } days.
    Flush it ten minutes to waste today.
    Two more weeks idle? Then plan to preserve the membrane.
note-idle-30 = { $rig } has stood for { $days } days: preserve the membrane, and keep it from frost.
    Before the next window, flush it well.
note-prefilters = { $rig }: change the prefilters { $by }.
    Old carbon lets chlorine through to the membrane.
note-prefilters-overdue = { $rig }: prefilters due { $since }.
    Old carbon lets chlorine through to the membrane.
note-ask-membrane = { $rig } reads like a new membrane { $since }.
    Is there one in it?
note-press-changed = Changed
note-press-changed-filters = Changed
note-press-flushed = Flushed
note-press-preserved = Preserved
note-press-week = In a week
note-press-ok = Got it
note-press-works = It works
note-press-not-now = Not now
note-press-new = Yes, a new one
note-press-same = No, the same
note-answer-week = I will ask again in a week.
note-answer-ok = Noted.
note-answer-put-off = Noted: { $rig }'s membrane stays out of the digest and of what to buy until { $day }.
preserved-noted = { $rig }: membrane in preservative. Noted, and not asked about until it works again.
    Renew the preservative as its label says; before the next window, flush it well.
preserved-since = Membrane in preservative { $since }: before the next window, flush it well.
preserved-withdrawn = membrane in preservative

## On request

sent-in-private = Sent to you in private.
digest-no-more = That was all of it.
file-digest = The week as a spreadsheet.
file-calendar = Due dates for your calendar. A later file moves them.
file-calendar-empty = Nothing has a date yet: that takes readings, and resin and prefilter changes that are logged.
## The workbook. Of a column, the first line is its title, the second what it means.

sheet-fleet = Fleet
sheet-actions = Actions
sheet-shopping = Shopping
sheet-readings = Readings
sheet-key = Key
sheet-key-column = column
sheet-key-meaning = meaning
sheet-no-currency = currency not told
column-rig = rig
    Its name.
column-state = state
    Of the membrane: good, fading, plan a new one, worn out; too early to tell with too few readings; look for a leak after a jump.
column-rejection = rejection, %
    Share of the dissolved solids that the membrane holds back, at 12 °C and the rig's usual pressure.
column-low = low, %
    Nine times out of ten the rejection is above this.
column-high = high, %
    Nine times out of ten the rejection is below this.
column-trend = lost, points a year
    Points of rejection that the membrane loses a year.
column-resin = resin left, working days
    Working days that the bed is likely to last.
column-glass = glass, ppm
    Last dissolved solids after the resin; from 10 ppm the glass spots.
column-flushed = flushed, days
    Days of the week at whose end the rig was flushed.
column-worked = worked, days
    Days of the week on which the rig worked.
column-count = readings
    Readings of the week.
column-last = last reading
    Day of the last reading ever.
column-number = no.
    The order: risk to the glass, then faults, then money a month, then dates.
column-what = what to do
    What, and why.
column-by = by
    The day by which it wants to be done.
column-month = a month, { $currency }
    What waiting costs a month, where it is known.
column-since = open since
    The first Monday in a row that asked for it.
column-good = what to buy
    For the next two weeks.
column-quantity = quantity
    Litres of resin, sets of prefilters, membranes.
column-cost = cost, { $currency }
    Where prices are told.
column-for = for
    The rigs it is for.
column-day = day
    Local day on which the reading was taken.
column-tap = tap, ppm
    Dissolved solids of the tap.
column-ro = RO, ppm
    Dissolved solids at the RO outlet.
column-raw = rejection as read, %
    (tap - RO) / tap, not corrected.
column-water = water, °C
    Temperature of the tap water.
column-pressure = pressure, kPa
    Of the tap, above the air's.
column-aside = counts
    Yes, or no when it was set aside as doubtful.
sheet-yes = yes
sheet-no = no

## The calendar

calendar-name = { $outfit }: water
calendar-resin = { $rig }: resin likely used up
calendar-prefilters = { $rig }: change the prefilters
calendar-membrane = { $rig }: new membrane, cheapest about now
calendar-range = Between { $early } and { $late }.
calendar-range-days = Between { $early } and { $late }.
