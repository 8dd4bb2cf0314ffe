# On pictures. Short: a headline has room for about 35 letters, a label for 25.

## Figures and days

percent = { $percent } %
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
rough-span = { $from } to { $to }

## One rig's history

picture-check = { $rig }: look for a leak first
picture-unproven = { $rig }: too few readings to say
picture-spent = { $rig }: time for a new membrane
picture-pays-now = { $rig }: a new membrane pays now
picture-renew-by = { $rig }: a new membrane by { $date }
picture-due = { $rig }: weigh a new membrane
picture-wearing-until = { $rig }: wearing, due about { $date }
picture-wearing = { $rig }: wearing, keep an eye on it
picture-sound-until = { $rig }: sound, due about { $date }
picture-sound-long = { $rig }: sound, years to go
picture-sound = { $rig }: sound so far
picture-level = Rejects { $percent } ({ $low }-{ $high }) today, { $readings ->
    [one] from 1 reading
   *[other] from { $readings } readings
  }
picture-level-check = { $seen } since { $day }; the membrane alone { $percent }
picture-basis = { $readings ->
    [0] No reading counts yet
    [one] 1 reading so far
   *[other] { $readings } readings so far
  }
picture-jump = jump { $day }
picture-not-before = not before { $date }
picture-trend = trend at 12 °C
picture-forecast = forecast
picture-due-zone = due below { $percent } %
picture-spent-zone = spent below { $percent } %
picture-resin = resin
picture-reading = reading
picture-set-aside = set aside
picture-band = trend, 80 % band
picture-no-readings = No readings yet

## The fleet

picture-fleet-empty = No rigs yet
picture-fleet-fine = { $count ->
    [one] Your rig is in order
   *[other] All { $count } rigs are in order
  }
picture-fleet-wants = { $count ->
    [one] Your rig needs attention
   *[other] { $wanting ->
        [one] 1 of { $count } rigs needs attention
       *[other] { $wanting } of { $count } rigs need attention
      }
  }
picture-fleet-shows = Rejection over { $weeks } weeks, most urgent first
picture-fleet-shows-resin = Glass and resin, most urgent first
picture-glass = glass { $ppm } ppm
picture-count = { $count } { $state }
picture-more = { $count } more:
picture-others = The other rigs, most urgent first
picture-short-now = resin: change now
picture-short-loose = resin: repack tight
picture-short-long = resin: over 30 days
picture-short-days = resin: { $days } days

## Resin

picture-resin-unknown = { $rig }: resin not reckoned yet
picture-resin-now = { $rig }: change the resin now
picture-resin-loose = { $rig }: repack the resin tight
picture-resin-long = { $rig }: resin for over 30 days
picture-resin-days = { $days ->
    [0] { $rig }: resin ends within a day
    [one] { $rig }: resin for about 1 working day
   *[other] { $rig }: resin for about { $days } working days
  }
picture-resin-range = { $days } working days left, by what its beds took so far
picture-resin-spots = The glass will spot: too much passes the resin
picture-resin-early = High so soon after a change: water slips past it
picture-resin-tell = Tell the litres of resin and of water a day to know
picture-resin-log = Log its next change, and I count from there
picture-beds-shrink = Beds last ever less, { $first } then { $last } days: look at the membrane
picture-working-days = { $days } working days
picture-full = full
picture-lasted = days
picture-load = taken up by each bed
picture-no-resin = No change of resin is logged yet

## Money

picture-cheapest = { $date }: { $money } a year
picture-cheapest-now = now: { $money } a year
picture-rule = { $percent } % rule: { $date }, { $money } dearer
picture-cost-axis = Membrane and resin a year, by the day of renewal
picture-flat = as good as cheapest (within 2 %)
picture-waiting-costs = Waiting costs about { $money } a month
picture-waiting-saves = Waiting still saves about { $money } a month
picture-waiting-nothing = A month sooner or later costs the same
