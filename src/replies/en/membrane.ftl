# The membrane.

membrane-level = { $rig } { $percent } ({ $low }-{ $high }) - { $state }
membrane-trend = Loses about { $points } points a year.
membrane-steady = No wear to be seen.
membrane-due-within = Due about { $likely } ({ $early } to { $late }).
membrane-due-from = Due about { $likely }, not before { $early }.
membrane-due-crossed = The due line is crossed: weigh a new membrane against the resin it saves.
membrane-due-far = Not due within three years.
membrane-due-unknown = When it is due is not yet known: that takes eight readings over 45 days.
membrane-basis = { $readings ->
    [one] From 1 reading
   *[other] From { $readings } readings
  }, corrected for cold water and weak pressure where you gave them.
membrane-new = { $rig }: new membrane since { $day }, not read yet.
membrane-not-yet = { $rig }: too few readings to tell, { $readings } so far. It takes three, or a logged new membrane.
