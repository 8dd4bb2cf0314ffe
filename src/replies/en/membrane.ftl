# The membrane.

membrane-level = { $rig } { $percent } ({ $low }–{ $high }, { $basis }) – { $state }
membrane-level-leak = { $rig } – { $state }; the membrane alone: { $percent } ({ $low }–{ $high }, { $basis })
level-corrected = corrected to 12 °C
level-as-read = from { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
  }
membrane-old = Last reading was { $days } days ago. Take one before you buy.
membrane-trend = It loses about { $points } points a year.
membrane-steady = Holding steady.
membrane-due-within = At this rate it reaches { $line }% about { $likely } ({ $early } to { $late }).
membrane-due-from = At this rate it reaches { $line }% about { $likely }, not before { $early }.
membrane-due-far = At this rate it stays above { $line }% for three years and more.
membrane-due-unknown = Too early for a date: I need eight readings over 45 days.
membrane-new = { $rig }: new membrane since { $day }, no reading yet.
membrane-not-yet = { $rig }: too early to tell, { $readings } so far. I need three readings, or log a new membrane.

## A rig without resin

glass-spots-within = No resin follows: the glass gets the RO water, about { $ppm } ppm. It reaches 10 ppm, where it may spot, about { $likely } ({ $early } to { $late }).
glass-spots-from = No resin follows: the glass gets the RO water, about { $ppm } ppm. It reaches 10 ppm, where it may spot, about { $likely }, not before { $early }.
glass-now = No resin follows: the glass gets the RO water, about { $ppm } ppm. From 10 ppm on it may spot.
glass-new-helps = A new membrane would bring it below 10.
glass-new-too = With this tap a new membrane wouldn't bring it below 10: only resin does.
glass-decides = No resin here, so price doesn't matter: change the membrane when the glass starts to spot.
glass-lines-decide = No resin here, so price doesn't matter: change the membrane when it falls below your limits.
glass-digest = have a membrane ready
    it's at { $percent }; go by the glass
glass-digest-many = Have membranes ready; no resin follows here, so go by the glass
    { $rigs }
glass-note = { $rig } { $percent }: have a membrane ready.
    Second week running. No resin follows, so go by the glass.
