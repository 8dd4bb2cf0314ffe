# The membrane.

membrane-level = { $rig } { $percent } ({ $low }-{ $high }, { $basis }) - { $state }
level-corrected = corrected to 12 °C
level-as-read = from { $readings ->
    [one] 1 reading
   *[other] { $readings } readings
  }
membrane-old = The last reading is { $days } days old: read it before you buy.
membrane-trend = Loses about { $points } points a year.
membrane-steady = No wear to be seen.
membrane-due-within = Due about { $likely } ({ $early } to { $late }).
membrane-due-from = Due about { $likely }, not before { $early }.
membrane-due-crossed = The due line is crossed: weigh a new membrane against the resin it saves.
membrane-due-far = Not due within three years.
membrane-due-unknown = When it is due is not yet known: that takes eight readings over 45 days.
membrane-new = { $rig }: new membrane since { $day }, not read yet.
membrane-not-yet = { $rig }: too few readings to tell, { $readings } so far. It takes three, or a logged new membrane.

## A rig without resin

glass-spots-within = No resin follows: the glass gets the RO water, about { $ppm } ppm. It reaches 10 ppm, where it may spot, about { $likely } ({ $early } to { $late }).
glass-spots-from = No resin follows: the glass gets the RO water, about { $ppm } ppm. It reaches 10 ppm, where it may spot, about { $likely }, not before { $early }.
glass-now = No resin follows: the glass gets the RO water, about { $ppm } ppm. From 10 ppm on it may spot.
glass-new-helps = A new membrane would bring it below 10.
glass-new-too = With this tap a new membrane would not bring it below 10: only resin does.
glass-decides = A new membrane saves no resin here, so no price decides: renew it when the glass spots.
glass-lines-decide = A new membrane saves no resin here, so no price decides: renew it when it falls below your lines.
glass-digest = have a membrane ready
    it is at { $percent }; no resin follows, so the glass decides
glass-digest-many = Have membranes ready; no resin follows here, so the glass decides
    { $rigs }
glass-note = { $rig } { $percent }: have a membrane ready.
    The second Monday in a row that asks for it. No resin follows, so the glass decides.
glass-due-crossed = The due line is crossed: have a membrane ready.
