# Questions to the crew.

ask-which-rig = Which rig?
ask-which-rig-named = Which one is "{ $name }"?
ask-unknown-rig = No rig called "{ $name }" here. Which one?
ask-fleet = On the fleet: { $rigs }.
ask-swapped = { $rig } - which way round? The RO is above the tap.
ask-which-is-which = { $rig } - which number is which? Like this: { $example }
ask-missing = { $rig } - one reading is missing. Like this: { $example }
ask-implausible = { $rig } - { $echo } is far from what it has been. Keep it?
ask-implausible-feed = { $rig } - the tap has been { $low }-{ $high }; you sent { $sent }. Keep it?
ask-which-rig-drafts = Got { $echo }. Which rig?
label-pair = tap { $feed }, RO { $permeate }
label-as-sent = as I sent it
label-keep = keep it
label-drop = drop it
label-product = { $ppm } is the glass
