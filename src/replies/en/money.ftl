# Money: membranes, resin, what to buy, what it cost. Sums arrive as ready text.

money-now = A new membrane pays about now.
money-soon = Cheapest to change between now and { $late }.
money-between = Cheapest to change about { $likely } ({ $early } to { $late }).
money-about = Cheapest to change about { $likely }, as far as I can see.
money-from = Cheapest to change about { $likely }, not before { $early }.
money-waiting-saves = For now, waiting saves about { $saved } a month.
money-far = At these prices no new membrane pays within five years.
money-unknown = Too early to say whether a new one pays: I need four readings over 60 days.
money-fault-first = The money below is for the membrane without the leak.
money-running = Resin is costing about { $running } a year. With a new membrane at the best time, resin and membrane together come to about { $mean } a year.
money-rule = Waiting for { $line }% ({ $date }) would cost about { $extra } more over its life.
money-rule-same = Waiting for { $line }% ({ $date }) would cost hardly more.
money-if = If resin cost 20% more: { $dearer }. 20% less: { $cheaper }.
money-prices = Your prices: resin { $resin } a litre, membrane { $membrane }.
money-missing = To work out the money I still need, for example:
date-now = now
date-in-month = in { $month }

resin-days = { $rig }: resin for about { $likely } ({ $low } to { $high }).
resin-days-one = { $rig }: resin for about { $likely }.
working-days = { $days ->
    [one] 1 working day
   *[other] { $days } working days
  }
resin-used-up = { $rig }: the resin should be used up by now. Go by the glass: test it daily and carry resin.
resin-done-by-glass = { $rig }: going by the glass, the resin is nearly used up. Test it daily and carry resin.
resin-exhausted = { $rig }: change the resin before the next window, { $ppm } ppm at the glass will spot.
resin-early = { $rig }: { $ppm } ppm at the glass, but only { $used }% of the resin is used. So it isn't used up: water is slipping past it.
resin-early-do = Water off, let the pressure out, then repack it tight and full, check its O-rings and test the glass again. Do that before you buy.
resin-early-lying = It lies on its side: loose resin lets water over the top. Upright is safer.
resin-rising = The glass is rising: test it daily and carry resin.
resin-used = About { $used }% used, { $ppm } ppm at the glass.
resin-fresh = Hardly used yet, { $ppm } ppm at the glass.
resin-fresh-untested = Hardly used yet. No glass reading since the change.
resin-used-untested = About { $used }% used. No glass reading since the change.
resin-no-change = { $rig }: no resin change logged, so I've nothing to count from. When you change it, type: { $typed } new resin
resin-missing = { $rig }: to forecast the resin I still need, for example:
resin-missing-short = { $rig }: no forecast yet. To get one, type for example: { $example }
resin-none = { $rig } has no resin: its RO water goes to the glass as it is.
resin-none-but = From 10 ppm it may spot. If the rig does have resin, type: { $typed }
resin-short = Resin: about { $days }.
resin-short-last = Resin past its expected life: test the glass.
resin-short-by-glass = Resin nearly used up, by the glass: test it daily.
resin-short-early = High so soon after a change: repack the resin tight before you buy.

what-if-resin = If resin costs { $price } a litre:
what-if-membrane = If a membrane costs { $price }:
what-if-line = { $rig }: { $then } (today: { $now })
what-if-same = { $rig }: { $then }, as before
what-if-unpriced = { $rig }: { $then }
what-if-di = { $rig } has no membrane, so there is none to renew.
what-if-glass = { $rig } has no resin to save, so price doesn't matter for its membrane: go by the glass.
what-if-none = No rig has both a membrane and resin, so prices change nothing.
what-if-nothing = I changed nothing.
what-if-how = I can try another price. Like this: what if resin costs 12? | what if a membrane costs 250?
then-now = a new membrane pays now
then-about = cheapest to change about { $date }
then-far = no new membrane pays within five years
then-unknown = too early to tell
then-missing = not enough set up to say

buy-title = To buy for the next two weeks:
buy-resin = Resin { $volume }: { $rigs }
buy-resin-priced = Resin { $volume }: { $rigs } – about { $sum }
buy-prefilters = Prefilters: { $rigs }
buy-prefilters-priced = Prefilters: { $rigs } – about { $sum }
buy-membranes = Membranes: { $rigs }
buy-membranes-priced = Membranes: { $rigs } – about { $sum }
buy-total = In all about { $sum }.
buy-total-partly = In all about { $sum }, without what has no price.
buy-none = Nothing to buy for the next two weeks.
buy-uncounted = Can't say yet for { $rigs }: I need { $missing }. Like this: { $example }
lack-bed-size = the litres of resin
lack-litres = the litres a day
lack-change = the last resin change
lack-reading = a reading
typed-new-resin = { $rig } new resin
buy-weigh-later = Below your limit; a few more readings will say whether a new membrane pays: { $rigs }.
buy-put-off = { $rig }'s membrane is put off until { $day }.
buy-weigh = Below your limit, but without prices I can't say whether a new membrane pays: { $rigs }.
buy-glass = No resin follows, so go by the glass. A membrane, if it spots: { $rigs }.
buy-fault-first = Find the fault before you buy a membrane: { $rigs }.

year-title = The year ahead:
year-title-priced = The year ahead: put aside about { $likely } (likely { $low } to { $high }).
year-title-unpriced = The year ahead. To see what it costs, type for example: { $example }
year-month = { $month }: { $what }
year-month-priced = { $month }: { $what } – about { $sum }
year-resin = resin for { $rigs }
year-membranes = membrane for { $rigs }
year-prefilters = prefilters for { $rigs }
year-sums = A month's sum is what to set aside: a bed may fall a month earlier or later.
year-membrane = { $rig }'s membrane: likely { $likely }, { $early } at the earliest
year-none = Nothing to buy that I can foresee.
year-sheet = Year ahead
year-columns = Month
    Resin
    Membranes
    Prefilters
    Cost { $currency }
    Hardly less
    Hardly more
file-year = The year ahead as a spreadsheet.

cost-title = { $what }, { $span }: about { $sum }.
cost-title-nothing = { $what }, { $span }: nothing that has a price.
cost-fleet = All rigs
cost-resin = { $count ->
    [one] 1 resin change
   *[other] { $count } resin changes
  } { $sum }
cost-membrane = { $count ->
    [one] 1 new membrane
   *[other] { $count } new membranes
  } { $sum }
cost-prefilter = { $count ->
    [one] 1 change of prefilters
   *[other] { $count } changes of prefilters
  } { $sum }
cost-none = { $what }, { $span }: no resin, membrane or prefilters were logged.
cost-unpriced = { $count ->
    [one] 1 of these has no price and isn't counted. To include it, type for example: { $example }
   *[other] { $count } of these have no price and aren't counted. To include them, type for example: { $example }
  }
cost-basis = Logged work at the price you gave, or your set price that day, labour included.

why-trend = No trend yet: { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
  } over { $days ->
    [one] 1 day
   *[other] { $days } days
  }. I need eight over 45 days.
why-old = The last reading was { $days } days ago.
why-jumped = The RO jumped; wear doesn't jump.
why-presumed = It reads as if the membrane was changed, but nobody logged it.
why-age = Nobody logged when this membrane was new.
why-level = Its rejection is below { $line }%.
why-near = It's close to your limit for planning a new one.
why-pays = At your prices a new membrane is cheaper than the resin that this one uses.
why-steady = Its readings are steady.
why-di = { $rig } has no membrane: only the glass counts, { $ppm } ppm last time.

compare-none = { $rig } – { $state }
compare-di = { $rig } – no membrane
who-title = Logged { $span }:
who-line = { $name }: { $rigs }
who-none = Nobody logged anything { $span }.
who-service = { $rig }, { $day }: { $name }
who-service-none = That was never logged.
somebody = someone who's left
prefilters-due = Prefilters due { $day }.
prefilters-overdue = Prefilters overdue since { $day }: an old carbon filter lets chlorine reach the membrane.
