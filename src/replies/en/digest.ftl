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
digest-headline-two = { $first }. { $second }.
digest-no-readings = No readings { $since }. Please get one from each rig today.
digest-no-readings-rest = No readings { $since }.
digest-no-readings-ever = No readings yet. Two numbers a day are enough: { $rig } 180 12
digest-calm = { $count ->
    [one] All good: nothing to do on your rig this week.
   *[other] All good: nothing to do on your { $count } rigs this week.
  }
digest-calm-unread = { $count ->
    [one] Nothing to do on the rig that sent readings; { $unread } sent none.
   *[other] Nothing to do on the { $count } rigs that sent readings; { $unread } sent none.
  }
digest-only-to-buy = Nothing to fix this week, just something to buy.
digest-wants-change-resin = { $count ->
   *[other] { $rigs } will spot without new resin
  }
digest-wants-repack-resin = { $count ->
    [one] { $rigs } needs its resin repacked
   *[other] { $rigs } need their resin repacked
  }
digest-wants-resin-soon = { $count ->
    [one] { $rigs } needs resin this week
   *[other] { $rigs } need resin this week
  }
digest-wants-find-leak = { $count ->
    [one] { $rigs } has a leak
   *[other] { $rigs } have leaks
  }
digest-wants-read-again = Read { $rigs } again
digest-wants-new-membrane = { $count ->
    [one] { $rigs } needs a new membrane
   *[other] { $rigs } need new membranes
  }
digest-wants-plan-membrane = { $count ->
    [one] Plan a new membrane for { $rigs }
   *[other] Plan new membranes for { $rigs }
  }
digest-wants-prefilters = { $count ->
    [one] { $rigs } needs prefilters
   *[other] { $rigs } need prefilters
  }
digest-wants-flush = { $count ->
    [one] { $rigs } isn't being flushed
   *[other] { $rigs } aren't being flushed
  }
digest-wants-ask-membrane = { $count ->
    [one] One question about { $rigs }
   *[other] Questions about { $rigs }
  }
digest-wants-frost = Frost risk at night
digest-wants-quiet-person = { $count ->
    [one] { $rigs } stopped logging
   *[other] { $count } people stopped logging
  }
digest-still = By the last readings:
digest-week = { $outfit }, { $from } to { $to }: { $rigs }, { $readings }.

## What to do: one rig. What, then why, by when, and what it saves or risks.

digest-change-resin = change the resin before the next window
    { $ppm } ppm at the glass will spot
digest-repack-resin-spots = repack the resin tight before the next window
    { $ppm } ppm will spot; the resin's nearly new, so water slips past it
digest-repack-resin = repack the resin tight
    { $ppm } ppm at the glass from nearly new resin: water slips past it
digest-resin-today = new resin today
    it's about used up
digest-resin-by = new resin { $by }
    it will be about used up then
digest-resin-soon = new resin { $by }
    carry it { $hand }: it may run out sooner
digest-leak = find the leak, { $test }
    RO { $before } → { $after } ppm { $since }
digest-leak-since = find the leak, { $test }
    it jumped { $since }
digest-leak-cost = { $said }, costing about { $money } of resin a month
digest-read-again = read it again
    { $seen } is far off its usual { $usual }%; run it 5 minutes, rinse the cup
digest-read-again-back = read it once more
    it's back to what it was before the jump; one more like it and it's fixed
digest-read-again-low = read it again
    { $seen } is low, but it's too early to blame the membrane; rinse the cup, then check hoses and O-rings
digest-test-read-again = after one more reading with a rinsed cup
digest-test-hoses = check hoses, fittings and the bypass first
digest-test-orings = check the O-rings first
digest-test-chlorine = test for chlorine after the carbon first
digest-membrane-now = new membrane now
    waiting costs about { $money } a month
digest-membrane-pays = new membrane now
    it now costs less than the extra resin
digest-membrane-between = plan a new membrane
    cheapest to change about { $likely } ({ $window })
digest-membrane-between-saves = plan a new membrane
    cheapest to change about { $likely } ({ $window }); waiting until it's worn out costs about { $money } more
digest-membrane-weigh = think about a new membrane
    it's at { $percent }; with your prices I can say when it pays
digest-membrane-weigh-later = think about a new membrane
    it's at { $percent }; a few more readings will say when it pays
digest-window-now = now
digest-window-until = between now and { $late }
digest-window-between = between { $early } and { $late }
digest-prefilters-overdue = change the prefilters, due { $since }
    worn-out carbon lets chlorine through to the membrane
digest-prefilters = change the prefilters { $by }
digest-flush = flush at the end of the day
    done on { $flushed } of { $worked } days last week
digest-ask-membrane = is there a new membrane in it?
    it reads like one { $since }; type: { $rig } new membrane | { $rig } same membrane
digest-idle-flush = no reading for { $days } days
    parked? Flush it. Working? Get a reading.
digest-idle-preserve = no reading for { $days } days
    parked? Put the membrane in preservative: gloves, eye protection, follow the label
digest-frost-water = Frost: the water was down to { $water }
    keep the rigs warm at night, or drain them as the maker says: ice ruins membranes and splits housings
digest-frost-season = Frost season: keep the rigs warm at night, or drain them as the maker says
    ice ruins membranes and splits housings
digest-quiet-rig = no reading { $since }
    parked, or not logged?
digest-quiet-person = { $name }: no readings last week
    { $before } in the four weeks before. Worth a chat.
digest-deed = { $rig }: { $deed }
digest-open-since = { $said }; on the list { $since }

## What to do: several rigs

digest-many-change-resin = New resin before the next window, or the glass will spot
    { $rigs }
digest-many-repack-resin = Repack the resin tight, water slips past it
    { $rigs }
digest-many-resin-soon = New resin this week
    { $rigs }
digest-many-leak = Find the leaks: hoses, fittings, O-rings
    { $rigs }
digest-many-read-again = Read these again
    { $rigs }
digest-many-membrane = New membranes, and what a month's waiting costs
    { $rigs }
digest-many-membrane-weigh = Think about new membranes, these are below your limit
    { $rigs }
digest-many-plan-membrane = Plan new membranes, cheapest to change
    { $rigs }
digest-many-prefilters = Change prefilters
    { $rigs }
digest-many-flush = Flush at the end of the day
    { $rigs }
digest-many-ask-membrane = A new membrane that was not logged?
    { $rigs }; if so, type: { $rig } new membrane
digest-many-idle = Parked, or not logged? Flush what's parked; after 30 days, preservative
    { $rigs }
digest-many-quiet-rig = No reading: parked, or not logged?
    { $rigs }
digest-many-quiet-person = Stopped logging: worth a chat
    { $rigs }
digest-short-ppm = ({ $ppm } ppm)
digest-short-month = now ({ $money })
digest-short-overdue = overdue { $since }
digest-short-jump = { $since } (RO { $before } → { $after })
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
digest-count-di = { $count } resin-only
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
digest-caution-pressure = Before opening a housing: water off, let the pressure out.
digest-more = More

## More

digest-then-title = After these
digest-table-title = Fleet, most urgent first (points a year, resin in working days)
digest-row = { $rig } { $facts }
digest-row-level = { $percent }{ $basis }, { $state }
basis-corrected = { " " }at 12 °C
digest-row-jump = – { $state }, membrane alone { $percent }{ $basis }
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
digest-calm-name = { $rig } { $percent }%
digest-shopping-title = Shopping for two weeks
digest-purchase = { $good }: { $rigs }
digest-purchase-cost = { $good }, { $cost }: { $rigs }
digest-litres-for = { $rig } { $quantity }
digest-shopping-total = Total: { $sum }
digest-shopping-unpriced = Items without a price aren't in the total. To see the prices, type: settings
digest-shopping-weigh = Membranes to think about (prices or readings are missing): { $rigs }
digest-shopping-uncounted = Can't forecast resin yet (needs bed size, litres a day, last change): { $rigs }
digest-shopping-unlogged = Prefilters never logged: { $rigs }
digest-quiet-rigs = No reading last week: { $rigs }
digest-quiet-rig-since = { $rig } ({ $since })
digest-quiet-people = Stopped logging, with readings in the four weeks before: { $people }
digest-quiet-name = { $name } ({ $count })
digest-jumps-opened = RO jumped: { $rigs }
digest-jumps-closed = RO back to normal: { $rigs }
digest-jump = { $rig } { $on } ({ $before } → { $after } ppm)
digest-jump-closed = { $rig } { $on } (was at { $after } ppm)
digest-followed-title = Asked for last Monday
digest-followed-done = Done: { $items }
digest-followed-open = Open: { $items }
digest-followed-said = Marked done, but the readings haven't improved: { $items }
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
    Carry a refill and watch the glass: from 10 ppm it spots.
note-resin-low-ppm = { $rig }: resin likely runs out { $by }.
    Glass { $ppm } ppm last time; from 10 ppm it spots. Carry a refill.
note-frost-water = Frost: the water was down to { $water }.
    Keep the rigs warm tonight, or drain them as the maker says.
note-frost-season = Frost season.
    On cold nights keep the rigs warm, or drain them as the maker says.
note-membrane-costs = { $rig } { $percent }: a new membrane pays now.
    Waiting costs about { $money } a month. Second week running.
note-membrane-pays = { $rig } { $percent }: a new membrane pays now.
    Second week running.
note-membrane-weigh = { $rig } { $percent }: see whether a new membrane pays.
    Below your limit, second week running.
note-membrane-weigh-prices = { $rig } { $percent }: see whether a new membrane pays.
    Below your limit, second week running. With your prices I can say when it pays.
note-idle-5 = No reading from { $rig } for { $days } days.
    If it's parked, flush it to waste for ten minutes, and again every week.
note-idle-14 = No reading from { $rig } for { $days } days.
    If it's parked, flush it to waste for ten minutes today.
    Parked two more weeks? Then plan to put the membrane in preservative.
note-idle-30 = No reading from { $rig } for { $days } days.
    If it's parked, put the membrane in preservative, and keep it from frost.
    Before the next window, flush it well.
note-prefilters = { $rig }: change the prefilters { $by }.
    Worn-out carbon lets chlorine through to the membrane.
note-prefilters-overdue = { $rig }: prefilters due { $since }.
    Worn-out carbon lets chlorine through to the membrane.
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
note-answer-week = OK, I'll ask again in a week.
note-answer-ok = OK.
note-answer-put-off = OK: { $rig }'s membrane stays out of the digest and the shopping list until { $day }.
preserved-noted = { $rig }: membrane in preservative. Logged. I won't ask about it until it's back at work.
    Renew the preservative as its label says; before the next window, flush it well.
preserved-since = Membrane in preservative { $since }: before the next window, flush it well.
preserved-withdrawn = membrane in preservative

## On request

sent-in-private = Sent to you in private.
digest-no-more = That was all of it.
file-digest = The week as a spreadsheet.
file-calendar = Due dates for your calendar. Import the next file to update them.
file-calendar-empty = Nothing has a date yet: that takes readings, and logged changes of resin and prefilters.
## The workbook. Of a column, the first line is its title, the second what it means.

sheet-fleet = Fleet
sheet-actions = Actions
sheet-shopping = Shopping
sheet-readings = Readings
sheet-key = Key
sheet-key-column = column
sheet-key-meaning = meaning
sheet-no-currency = no currency set
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
    Do it by this day.
column-month = a month, { $currency }
    What waiting costs a month, where it is known.
column-since = open since
    The first Monday in a row that asked for it.
column-good = what to buy
    For the next two weeks.
column-quantity = quantity
    Litres of resin, sets of prefilters, membranes.
column-cost = cost, { $currency }
    Where prices are set.
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
