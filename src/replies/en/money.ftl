# Money: membranes, resin, what to buy, what it cost. Sums arrive as ready text.

money-now-waiting = A new membrane pays for itself now: waiting costs about { $waiting } a month.
money-now = A new membrane pays for itself about now.
money-soon = Cheapest to renew between now and { $late }.
money-between = Cheapest to renew about { $likely } ({ $early } to { $late }).
money-about = Cheapest to renew about { $likely }, as far as can be seen.
money-from = Cheapest to renew about { $likely }, not before { $early }.
money-waiting-saves = For now, waiting saves about { $saved } a month.
money-far = At these prices no new membrane pays within five years.
money-unknown = Whether a new one pays is not known yet: that takes four readings over 60 days.
money-fault-first = Mend the fault first: it costs resin, and the figures below are the membrane's own.
money-running = Its resin costs about { $running } a year now; membrane and resin together, renewed at the best time, about { $mean } a year.
money-rule = The { $line } % rule would renew { $date }, about { $extra } dearer over its life.
money-rule-same = The { $line } % rule would renew { $date }: hardly dearer.
money-if = Resin a fifth dearer: { $dearer }. A fifth cheaper: { $cheaper }.
money-prices = Prices as set: resin { $resin } a litre, membrane { $membrane }.
money-missing = To judge the money I still need, for example:
date-now = now
date-in-month = in { $month }

resin-days = { $rig }: resin for about { $likely } ({ $low } to { $high }).
resin-days-one = { $rig }: resin for about { $likely }.
working-days = { $days ->
    [one] 1 working day
   *[other] { $days } working days
  }
resin-used-up = { $rig }: by the count the resin is used up. Trust the glass: test it daily, have resin ready.
resin-done-by-glass = { $rig }: by the glass the resin is nearly used up. Test it daily, have resin ready.
resin-exhausted = { $rig } - change the resin before the next window: { $ppm } ppm at the glass will spot.
resin-early = { $rig }: { $ppm } ppm at the glass, though only { $used } % of the resin is used. That is water slipping past, not spent resin.
resin-early-do = Let the pressure off, repack it tight and full, check its O-rings, test the glass again. Do that before buying.
resin-early-lying = It lies on its side: loose resin lets water over the top. Upright is safer.
resin-rising = The glass is rising: test it daily, have resin ready.
resin-used = About { $used } % used, { $ppm } ppm at the glass.
resin-fresh = Hardly used yet, { $ppm } ppm at the glass.
resin-fresh-untested = Hardly used yet. The glass was not tested since the change.
resin-used-untested = About { $used } % used. The glass was not tested since the change.
resin-no-change = { $rig }: no resin change is logged, so there is nothing to count from. When you change it, type: { $typed } new resin
resin-missing = { $rig }: to count the resin I still need, for example:
resin-missing-short = { $rig }: not counted yet. To count it, type for example: { $example }
resin-none = { $rig } has no resin: its RO water goes to the glass as it is.
resin-none-but = From 10 ppm on it may spot. If the rig does have resin, type: { $typed }
resin-short = Resin: about { $days }.
resin-short-last = Resin: used up by the count. Test the glass.
resin-short-by-glass = Resin: nearly used up, by the glass. Test it daily.
resin-short-early = High so soon after a change: repack the resin tight before you buy.

what-if-resin = If resin costs { $price } a litre:
what-if-membrane = If a membrane costs { $price }:
what-if-line = { $rig }: { $then } (as it is: { $now })
what-if-same = { $rig }: { $then }, as before
what-if-unpriced = { $rig }: { $then }
what-if-di = { $rig } has no membrane, so there is none to renew.
what-if-glass = { $rig } has no resin to save, so prices do not decide about its membrane: the glass does.
what-if-none = No rig has both a membrane and resin, so prices decide nothing.
what-if-nothing = Nothing was changed.
what-if-how = I can try another price. Like this: what if resin costs 12? - what if a membrane costs 250?
then-now = a new membrane pays now
then-about = cheapest to renew about { $date }
then-far = no new membrane pays within five years
then-unknown = not known yet
then-missing = not enough is told to say

buy-title = To buy for the next two weeks:
buy-resin = Resin { $volume }: { $rigs }
buy-resin-priced = Resin { $volume }: { $rigs } - about { $sum }
buy-prefilters = Prefilters: { $rigs }
buy-prefilters-priced = Prefilters: { $rigs } - about { $sum }
buy-membranes = Membranes: { $rigs }
buy-membranes-priced = Membranes: { $rigs } - about { $sum }
buy-total = In all about { $sum }.
buy-total-partly = In all about { $sum }, without what has no price.
buy-none = Nothing to buy for the next two weeks, as far as I can count.
buy-uncounted = Resin not counted: { $rigs }. I need { $missing }. Like this: { $example }
lack-bed-size = the litres of resin
lack-litres = the litres a day
lack-change = the last resin change
lack-reading = a reading
typed-new-resin = { $rig } new resin
buy-weigh-later = Below the due line; a few more readings will say whether a new membrane pays: { $rigs }.
buy-put-off = { $rig }'s membrane is put off until { $day }.
buy-weigh = Below the due line, but without prices I cannot say whether a new membrane pays: { $rigs }.
buy-glass = No resin follows, so the glass decides. A membrane, if it spots: { $rigs }.
buy-fault-first = Find the fault before you buy a membrane: { $rigs }.

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
    [one] 1 of these has no price and is left out. To include it, type for example: { $example }
   *[other] { $count } of these have no price and are left out. To include them, type for example: { $example }
  }
cost-basis = What was logged, at the price told with it, else as set on its day, labour included.

why-trend = No trend yet: { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
  } over { $days ->
    [one] 1 day
   *[other] { $days } days
  }. It takes eight over 45 days.
why-old = The last reading is { $days } days old.
why-jumped = The RO jumped; wear does not jump.
why-presumed = It reads as if the membrane was changed, but nobody logged it.
why-age = Nobody logged when this membrane was new.
why-level = Its rejection is below { $line } %.
why-near = The due line is near.
why-pays = At your prices a new membrane is cheaper than the resin that this one uses.
why-steady = Its readings are steady.
why-di = { $rig } has no membrane: only the glass counts, { $ppm } ppm last time.

compare-none = { $rig } - too few readings
compare-di = { $rig } - no membrane
who-title = Logged { $span }:
who-line = { $name }: { $rigs }
who-none = Nobody logged anything { $span }.
who-service = { $rig }, { $day }: { $name }
who-service-none = That was never logged.
somebody = somebody who left
prefilters-due = Prefilters due { $day }.
prefilters-overdue = Prefilters overdue since { $day }: an old carbon filter lets chlorine reach the membrane.
