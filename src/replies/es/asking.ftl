# Preguntas a la cuadrilla.

ask-which-rig = ¿Qué equipo?
ask-which-rig-named = ¿Cuál es "{ $name }"?
ask-unknown-rig = Aquí no hay ningún equipo "{ $name }". ¿Cuál es?
ask-fleet = En la flota: { $rigs }.
ask-swapped = { $rig } - ¿cuál es cuál? La ósmosis sale más alta que la red.
ask-which-is-which = { $rig } - ¿qué número es cuál? Así: { $example }
ask-missing = { $rig } - falta una lectura. Así: { $example }
ask-missing-second = { $rig } - red { $feed }, ¿y la segunda lectura? Basta su número, o las dos: { $example }
ask-missing-ro = { $rig } - red { $feed }, vidrio { $product }, ¿y la ósmosis? Basta su número.
ask-note-it = { $rig } - { $echo }. ¿Lo anoto?
ask-ahead = { $rig } - ese momento aún no ha llegado. ¿Anoto { $echo } como de ahora?
ask-implausible = { $rig } - { $echo } queda lejos de lo habitual. ¿Lo anoto?
ask-implausible-feed-once = { $rig } - la red daba { $low } hasta ahora; mandaste { $sent }. ¿Lo anoto?
ask-implausible-feed = { $rig } - la red venía dando { $low }-{ $high }; mandaste { $sent }. ¿Lo anoto?
ask-which-rig-drafts = Recibido: { $echo }. ¿Qué equipo?
label-pair = red { $feed }, ósmosis { $permeate }
label-as-sent = como lo mandé
label-keep = es correcto
label-drop = bórralo
label-product = { $ppm } es el vidrio
