# Questions to the crew.

ask-which-rig = Which rig?
ask-which-rig-named = Which one is "{ $name }"?
ask-unknown-rig = No rig called "{ $name }" here. Which one?
ask-fleet = On the fleet: { $rigs }.
ask-swapped = { $rig } - which way round? The RO is above the tap.
ask-which-is-which = { $rig } - which number is which? Like this: { $example }
ask-missing = { $rig } - one reading is missing. Like this: { $example }
ask-missing-second = { $rig } - tap { $feed }, and the second reading? Its number will do, or both: { $example }
ask-missing-ro = { $rig } - tap { $feed }, glass { $product }, and the RO outlet? Its number will do.
ask-note-it = { $rig } - { $echo }. Shall I note it?
ask-ahead = { $rig } - that time is still to come. Shall I note { $echo } as of now?
ask-implausible = { $rig } - { $echo } is far from what it has been. Keep it?
ask-implausible-feed-once = { $rig } - the tap has been { $low } so far; you sent { $sent }. Keep it?
ask-implausible-feed = { $rig } - the tap has been { $low }-{ $high }; you sent { $sent }. Keep it?
ask-which-rig-drafts = Got { $echo }. Which rig?
label-pair = tap { $feed }, RO { $permeate }
label-as-sent = as I sent it
label-keep = keep it
label-drop = drop it
label-product = { $ppm } is the glass
