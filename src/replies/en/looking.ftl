# Looking things up.

rig-none-yet = { $rig }: no readings yet. Send: { $example }
rig-no-rejection = { $rig }: the last reading gives no rejection
rig-verdict = { $rig } { $percent } as read – { $state }
rig-last-taken = { $echo }, { $day }
rig-last-taken-before = Before that: { $echo }, { $day }
rig-new-membrane = { $rig }: new membrane, no reading yet
rig-services-resin = Last resin: { $resin }.
rig-services-flush = Last flush: { $flush }.
rig-services = Last resin: { $resin }. Last flush: { $flush }.
never = not logged
history-title = { $rig }, newest first
history-line = { $day }  { $echo }  { $percent }
history-line-di = { $day }  { $echo }
fleet-title = { $outfit }: { $count ->
    [one] 1 rig
   *[other] { $count } rigs
  }
fleet-line-none = { $rig } – no readings yet
fleet-empty = No rigs yet. An owner or lead types: add rig heron
quiet-title = No reading for three days or more:
quiet-line = { $rig }, { $day }
quiet-none = Every rig has a reading from the last three days.
