# Dinero: membranas, resina, qué comprar, qué costó. Las sumas llegan ya escritas.

money-now-waiting = Una membrana nueva ya sale a cuenta: esperar cuesta unos { $waiting } al mes.
money-now = Una membrana nueva sale a cuenta más o menos ahora.
money-soon = Lo más barato: cambiarla entre ahora y { $late }.
money-between = Lo más barato: cambiarla hacia { $likely } (de { $early } a { $late }).
money-from = Lo más barato: cambiarla hacia { $likely }, no antes de { $early }.
money-waiting-saves = Por ahora, esperar ahorra unos { $saved } al mes.
money-far = Con estos precios ninguna membrana nueva sale a cuenta en cinco años.
money-unknown = Aún no se sabe si una nueva sale a cuenta: hacen falta cuatro lecturas en 60 días.
money-fault-first = Arregla antes la avería: gasta resina. Lo que sigue vale para la membrana sola.
money-running = Su resina cuesta ahora unos { $running } al año; membrana y resina, cambiando a tiempo, unos { $mean } al año.
money-rule = La regla del { $line } % la cambiaría { $date }: unos { $extra } más cara en toda su vida.
money-rule-same = La regla del { $line } % la cambiaría { $date }: casi igual de caro.
money-if = Con la resina un quinto más cara: { $dearer }. Un quinto más barata: { $cheaper }.
money-prices = Precios puestos: resina { $resin } el litro, membrana { $membrane }.
money-missing = Para juzgar el dinero me falta, por ejemplo:
date-now = ahora
date-in-month = en { $month }

resin-days = { $rig }: resina para { $likely } más o menos (de { $low } a { $high }).
resin-days-one = { $rig }: resina para { $likely } más o menos.
working-days = { $days ->
    [one] 1 día de trabajo
   *[other] { $days } días de trabajo
  }
resin-used-up = { $rig }: por la cuenta, la resina está gastada. Fíate del vidrio: mídelo cada día y ten resina a mano.
resin-done-by-glass = { $rig }: por el vidrio, la resina está casi gastada. Mídelo cada día y ten resina a mano.
resin-exhausted = { $rig } - cambia la resina antes de la próxima ventana: { $ppm } ppm en el vidrio manchan.
resin-early = { $rig }: { $ppm } ppm en el vidrio, aunque solo se gastó el { $used } % de la resina. Es agua que se cuela, no resina gastada.
resin-early-do = Quita la presión, aprieta y llena bien la resina, mira las juntas y mide otra vez el vidrio. Antes de comprar.
resin-early-lying = Va tumbado: por encima de la resina suelta se cuela el agua. De pie es más seguro.
resin-rising = El vidrio sube: mídelo cada día y ten resina a mano.
resin-used = Gastada un { $used } % más o menos, { $ppm } ppm en el vidrio.
resin-fresh = Casi sin gastar, { $ppm } ppm en el vidrio.
resin-used-untested = Gastada un { $used } % más o menos. El vidrio no se midió desde el cambio.
resin-no-change = { $rig }: no hay ningún cambio de resina anotado desde el que contar. Cuando la cambies, escribe: { $typed } resina nueva
resin-missing = { $rig }: para contar la resina me falta, por ejemplo:
resin-untold = { $rig }: aún no hay lecturas desde las que contar.
resin-short = Resina: { $days } más o menos.
resin-short-last = Resina: gastada por la cuenta. Mide el vidrio.
resin-short-by-glass = Resina: casi gastada, por el vidrio. Mídelo cada día.
resin-short-early = Alto tan pronto tras un cambio: aprieta la resina antes de comprar.

what-if-resin = Si la resina cuesta { $price } el litro:
what-if-membrane = Si una membrana cuesta { $price }:
what-if-line = { $rig }: { $then } (ahora: { $now })
what-if-same = { $rig }: { $then }, como antes
what-if-unpriced = { $rig }: { $then }
what-if-nothing = No se cambió nada.
what-if-how = Puedo probar otro precio. Así: ¿y si la resina cuesta 12? - ¿y si una membrana cuesta 250?
then-now = una membrana nueva sale a cuenta ya
then-about = lo más barato, cambiarla hacia { $date }
then-far = ninguna membrana nueva sale a cuenta en cinco años
then-unknown = aún no se sabe
then-missing = falta decir algo para saberlo

buy-title = Para comprar, dos semanas:
buy-resin = Resina { $volume }: { $rigs }
buy-resin-priced = Resina { $volume }: { $rigs } - unos { $sum }
buy-prefilters = Prefiltros: { $rigs }
buy-prefilters-priced = Prefiltros: { $rigs } - unos { $sum }
buy-membranes = Membranas: { $rigs }
buy-membranes-priced = Membranas: { $rigs } - unos { $sum }
buy-total = En total unos { $sum }.
buy-total-partly = En total unos { $sum }, sin lo que no tiene precio.
buy-none = Nada que comprar para dos semanas, hasta donde sé contar.
buy-uncounted = Resina sin contar: { $rigs }. Falta: { $missing }. Así: { $example }
lack-bed-size = cuántos litros de resina lleva
lack-litres = cuántos litros hace al día
lack-change = el último cambio de resina
lack-reading = una lectura
typed-new-resin = { $rig } resina nueva
buy-weigh-later = Bajo la línea de aviso; unas lecturas más dirán si sale a cuenta una membrana: { $rigs }.
buy-put-off = La membrana de { $rig } queda aplazada hasta el { $day }.
buy-weigh = Bajo la línea de aviso, pero sin precios no puedo decir si sale a cuenta una membrana: { $rigs }.
buy-fault-first = Busca la avería antes de comprar membrana: { $rigs }.

cost-title = { $what }, de { $from } a { $to }: unos { $sum }.
cost-title-nothing = { $what }, de { $from } a { $to }: nada con precio.
cost-fleet = Todos los equipos
cost-resin = { $count ->
    [one] 1 cambio de resina
   *[other] { $count } cambios de resina
  } { $sum }
cost-membrane = { $count ->
    [one] 1 membrana nueva
   *[other] { $count } membranas nuevas
  } { $sum }
cost-prefilter = { $count ->
    [one] 1 cambio de prefiltros
   *[other] { $count } cambios de prefiltros
  } { $sum }
cost-none = { $what }, de { $from } a { $to }: no se anotó resina, membrana ni prefiltros.
cost-unpriced = { $count ->
    [one] 1 de ellos no tiene precio y no cuenta.
   *[other] { $count } de ellos no tienen precio y no cuentan.
  } Así: { $example }
cost-basis = Lo anotado, al precio dicho entonces o si no al puesto ese día, con la mano de obra.

why-no-readings = Aún no hay lecturas, así que no se sabe nada.
why-trend = Aún no hay tendencia: { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
  } en { $days ->
    [one] 1 día
   *[other] { $days } días
  }. Hacen falta ocho en 45 días.
why-old = La última lectura tiene { $days } días.
why-jumped = El RO dio un salto; el desgaste no salta.
why-presumed = Parece que cambiaron la membrana, pero nadie lo anotó.
why-age = Nadie anotó cuándo esta membrana era nueva.
why-level = Su rechazo está por debajo del { $line } %.
why-near = La línea de aviso queda cerca.
why-pays = Con tus precios, una membrana nueva es más barata que la resina para esta.
why-steady = Sus lecturas son estables.
why-di = { $rig } no tiene membrana: solo cuenta el vidrio, { $ppm } ppm la última vez.

compare-none = { $rig } - muy pocas lecturas
compare-di = { $rig } - sin membrana
who-title = De { $from } a { $to }:
who-line = { $name }: { $rigs }
who-none = De { $from } a { $to }: nadie anotó nada.
who-service = { $rig }, { $day }: { $name }
who-service-none = Eso no se anotó nunca.
somebody = alguien que ya no está
prefilters-due = Prefiltros: tocan el { $day }.
prefilters-overdue = Prefiltros: tocaban el { $day }. Un carbón viejo deja pasar cloro a la membrana.
