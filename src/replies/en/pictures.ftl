# On pictures. Short: a headline has room for about 35 letters, a label for 25.

## Figures and days

percent = { $percent }%
rough-date = { $part ->
    [1] early
    [2] mid
   *[3] late
  } { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[12] Dec
  }

picture-days = { $days ->
    [one] 1 day
   *[other] { $days } days
  }
picture-ppm = { $ppm } ppm
picture-about = about
picture-near = about
picture-now = now

## One rig's history

picture-check = { $rig }: look for a leak first
picture-unproven = { $rig }: too early to tell
picture-spent = { $rig }: new membrane now
picture-pays-now = { $rig }: order a membrane now
picture-renew-by = { $rig }: new membrane by { $date }
picture-due = { $rig }: plan a new membrane
picture-lasts = { $rig }: lasts until { $date }
picture-fading = { $rig }: fading, watch it
picture-good-long = { $rig }: good for years
picture-good = { $rig }: good so far
picture-level = { $state }: { $percent } ({ $range }), { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
  }
picture-as-read = { $percent } as read, { $readings ->
    [one] 1 reading counts so far
   *[other] { $readings } readings count so far
  }
picture-text-it = Text its name, then tap and RO
picture-no-readings = no readings yet
picture-axis = rejection
picture-axis-corrected = rejection at 12 °C
picture-floor-about = { $percent } about
picture-floor-after = { $percent } after
picture-dots = dots: readings
picture-rings = rings: set aside
picture-resin = resin
picture-membrane = membrane
picture-mended = a leak, fixed

## A leak

picture-fell = Fell from { $before } to { $after }% at once: a fault, not wear
picture-lately = last { $weeks } weeks
picture-lost = { $points ->
    [one] 1 point lost
   *[other] { $points } points lost
  }
picture-permeate = RO { $before }, then { $after } ppm
picture-alone = alone { $percent }
picture-where-to-look = Hoses, fittings and bypass, then read again

## The fleet

picture-fleet-empty = No rigs yet
picture-fleet-fine = { $count ->
    [one] Your rig is fine
   *[other] { $count } rigs, all fine
  }
picture-fleet-nothing = Nothing to buy or fix this week
picture-first = { $rig } first: { $deed }
picture-fleet-wants = { $wanting ->
    [one] 1 of { $count } rigs needs work
   *[other] { $wanting } of { $count } rigs need work, in this order
  }
picture-job = { $job ->
    [change] new resin today
    [repack_resin] repack the resin
    [find_leak] look for a leak
    [read_again] read it again
    [renew] new membrane now
    [order] order a membrane
    [plan] plan a membrane
    [look] check the glass
    [buy] buy resin
    [prefilters] new prefilters
   *[ask_membrane] say what changed
  }
picture-was = was { $percent }
picture-glass = on the glass
picture-resin-left = resin left
picture-resin-axis = resin that is left
picture-legend = { $weeks } weeks; floor: { $floor }, or resin used up
picture-more = { $count } more rigs: see the next picture
picture-others = the others, most urgent first

## Resin

picture-resin-unknown = { $rig }: no resin forecast yet
picture-resin-now = { $rig }: change the resin now
picture-resin-loose = { $rig }: repack the resin tight
picture-resin-buy = { $rig }: buy resin this week
picture-resin-long = { $rig }: resin for over 30 days
picture-resin-days = { $rig }: resin for about { $days } days
picture-resin-range = { $days } working days left in this bed
picture-in-use = { $days } days in use; a bed lasts { $usual }
picture-resin-spots = It lets too much through: the glass will spot
picture-resin-early = High so soon: water slips past the bed
picture-resin-tell = Set its litres, and the water used a day
picture-resin-log = Log its next change; I count from there
picture-beds-shrink = { $first } days, now { $last }: look at the membrane
picture-over = { $days ->
    [one] +1 day
   *[other] +{ $days } days
  }
picture-fresh = fresh
picture-half = half
picture-used-up = used up
picture-slopes = Each slope is a bed, with the days it was in
picture-no-slopes = Each mark is a change, with the days between
picture-no-resin = No change of resin is logged yet

## Money

picture-rule = { $percent } rule of thumb: { $money } more
picture-cost-axis = cost a year, by the month of renewal
picture-flat = within 2%
picture-waiting-costs = Waiting costs about { $money } a month
picture-waiting-saves = Waiting still saves about { $money } a month
picture-waiting-nothing = A month sooner or later costs the same

## The year ahead

picture-year = Put aside { $money } for the year
picture-year-range = Likely { $low } to { $high }; { $soon } by { $month }
picture-each = { $litres } L each
picture-prefilters = prefilters
picture-range = range
