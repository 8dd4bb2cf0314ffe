# Time off: of a rig, of everybody. Day by day, no reminders then.

time-off-why = { $why ->
    [parked] parked
    [garage] at the garage
    [broken] off the road
    [winter] laid up
    [preserved] in preservative
    [lent] lent out
   *[off] off
  }
time-off-open = { $why } for now
time-off-open-from = { $why } from { $from } on
time-off-one-day = { $why } { $from }
time-off-until = { $why }, back { $back }
time-off-from-to = { $why } { $from } to { $last }
time-off-rig = { $rig }: { $off }. { $ends ->
    [0] I won't ask about it. Once it's back, just send a reading.
    [1] I won't ask about it till then. Back sooner? Just send a reading.
   *[other] I won't ask about it then. Back sooner? Just send a reading.
  }
time-off-outfit = Everybody: { $off }. No reminders or notices in that time.
time-off-already = I've got that already. { $told }
time-off-care = Flush the membrane before a long stand, and again on the first day back. Over 30 days: preservative, the way its maker says.
time-off-first-reading = It stood a while: flush it a few minutes first. If this one looks poor, read again before you judge the membrane.
time-off-back = { $rig } is back at work.
time-off-back-outfit = Back to work, then. Reminders are on again.
time-off-withdrawn = Taken back: { $rig } is as it was before.
time-off-withdrawn-outfit = Taken back: your days off are as they were before.
time-off-when = I can't place those days. Like this: heron off until Friday | we're closed 24 December to 2 January
time-off-until-when = Until when? Like this: we're closed until 4 January
time-off-who = Who's off: one rig, or all of you? Tap, or tell me like this: heron off until Monday
time-off-everybody = all of us
