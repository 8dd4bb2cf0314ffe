# Dinero: membranas, resina, qué comprar, qué costó. Las sumas llegan ya escritas.

money-now = Una membrana nueva sale a cuenta más o menos ahora.
money-soon = Lo más barato: cambiarla entre ahora y { $late }.
money-between = Lo más barato: cambiarla hacia { $likely } (de { $early } a { $late }).
money-about = Lo más barato: cambiarla hacia { $likely }, hasta donde se puede ver.
money-from = Lo más barato: cambiarla hacia { $likely }, no antes de { $early }.
money-waiting-saves = Por ahora, esperar ahorra cerca de { $saved } al mes.
money-far = Con estos precios ninguna membrana nueva sale a cuenta en cinco años.
money-unknown = Aún es pronto para saber si una nueva sale a cuenta: necesito cuatro lecturas en 60 días.
money-fault-first = Las cuentas que siguen son de la membrana sin la fuga.
money-running = La resina cuesta ahora cerca de { $running } al año. Con una membrana nueva en el mejor momento, resina y membrana suman cerca de { $mean } al año.
money-rule = Esperar al { $line } % ({ $date }) costaría cerca de { $extra } más en toda su vida.
money-rule-same = Esperar al { $line } % ({ $date }) costaría casi lo mismo.
money-if = Si la resina costara un 20 % más: { $dearer }. Un 20 % menos: { $cheaper }.
money-prices = Tus precios: resina { $resin } el litro, membrana { $membrane }.
money-missing = Para echar las cuentas me falta, por ejemplo:
date-now = ahora
date-in-month = en { $month }

resin-days = { $rig }: resina para { $likely } más o menos (de { $low } a { $high }).
resin-days-one = { $rig }: resina para { $likely } más o menos.
working-days = { $days ->
    [one] 1 día de trabajo
   *[other] { $days } días de trabajo
  }
resin-used-up = { $rig }: la resina ya debería estar gastada. Fíate del vidrio: mídelo cada día y lleva resina.
resin-done-by-glass = { $rig }: según el vidrio, la resina está casi gastada. Mídelo cada día y lleva resina.
resin-exhausted = { $rig }: cambia la resina antes de la próxima ventana, { $ppm } ppm en el vidrio dejan manchas.
resin-early = { $rig }: { $ppm } ppm en el vidrio, pero solo está gastado el { $used } % de la resina. Así que no está gastada: el agua se cuela.
resin-early-do = Cierra el agua y quita la presión; luego compacta y llena bien la resina, mira las juntas y mide otra vez el vidrio. Hazlo antes de comprar.
resin-early-lying = Va tumbado: el agua se cuela por encima de la resina suelta. De pie es más seguro.
resin-rising = El vidrio sube: mídelo cada día y lleva resina.
resin-used = Gastada al { $used } % más o menos, { $ppm } ppm en el vidrio.
resin-fresh = Casi sin gastar, { $ppm } ppm en el vidrio.
resin-fresh-untested = Casi sin gastar. El vidrio no se ha medido desde el cambio.
resin-used-untested = Gastada al { $used } % más o menos. El vidrio no se ha medido desde el cambio.
resin-no-change = { $rig }: no hay ningún cambio de resina anotado, así que no puedo calcular. Cuando la cambies, escribe: { $typed } resina nueva
resin-missing = { $rig }: para calcular la resina me falta, por ejemplo:
resin-missing-short = { $rig }: sin calcular todavía. Para calcularla, escribe por ejemplo: { $example }
resin-none = { $rig } no tiene resina: el agua de la ósmosis va al vidrio tal cual.
resin-none-but = Desde 10 ppm puede manchar. Si el equipo sí tiene resina, escribe: { $typed }
resin-short = Resina: { $days } más o menos.
resin-short-last = La resina ya debería estar gastada: mide el vidrio.
resin-short-by-glass = Resina casi gastada según el vidrio: mídelo cada día.
resin-short-early = Alto tan pronto tras un cambio: compacta la resina antes de comprar.

what-if-resin = Si la resina cuesta { $price } el litro:
what-if-membrane = Si una membrana cuesta { $price }:
what-if-line = { $rig }: { $then } (hoy: { $now })
what-if-same = { $rig }: { $then }, como antes
what-if-unpriced = { $rig }: { $then }
what-if-di = { $rig } no tiene membrana, así que no hay ninguna que cambiar.
what-if-glass = { $rig } no tiene resina que ahorrar: para su membrana el precio da igual, manda la lectura del vidrio.
what-if-none = Ningún equipo tiene a la vez membrana y resina: los precios no cambian nada.
what-if-nothing = No cambié nada.
what-if-how = Puedo probar con otro precio. Así: ¿y si la resina cuesta 12? | ¿y si una membrana cuesta 250?
then-now = una membrana nueva sale a cuenta ya
then-about = lo más barato, cambiarla { $date ->
    [ahora] más o menos ahora
   *[other] hacia { $date }
  }
then-far = ninguna membrana nueva sale a cuenta en cinco años
then-unknown = aún es pronto
then-missing = faltan datos para saberlo

buy-title = Hay que comprar para las próximas dos semanas:
buy-resin = Resina { $volume }: { $rigs }
buy-resin-priced = Resina { $volume }: { $rigs } – cerca de { $sum }
buy-prefilters = Prefiltros: { $rigs }
buy-prefilters-priced = Prefiltros: { $rigs } – cerca de { $sum }
buy-membranes = Membranas: { $rigs }
buy-membranes-priced = Membranas: { $rigs } – cerca de { $sum }
buy-total = En total cerca de { $sum }.
buy-total-partly = En total cerca de { $sum }, sin lo que no tiene precio.
buy-none = Nada que comprar en las próximas dos semanas.
buy-uncounted = Aún no puedo decirlo para { $rigs }: falta { $missing }. Así: { $example }
lack-bed-size = cuántos litros de resina lleva
lack-litres = cuántos litros hace al día
lack-change = el último cambio de resina
lack-reading = una lectura
typed-new-resin = { $rig } resina nueva
buy-weigh-later = Por debajo de tu límite; unas lecturas más dirán si sale a cuenta una membrana nueva: { $rigs }.
buy-put-off = La membrana de { $rig } queda aplazada hasta el { $day }.
buy-weigh = Por debajo de tu límite, pero sin precios no puedo decir si sale a cuenta una membrana nueva: { $rigs }.
buy-glass = Sin resina manda la lectura del vidrio. Una membrana, si mancha: { $rigs }.
buy-fault-first = Busca la avería antes de comprar una membrana: { $rigs }.

year-title = El año que viene:
year-title-priced = El año que viene: aparta unos { $likely } (entre { $low } y { $high }).
year-title-unpriced = El año que viene. Para ver lo que cuesta, escribe por ejemplo: { $example }
year-month = { $month }: { $what }
year-month-priced = { $month }: { $what } – unos { $sum }
year-resin = resina para { $rigs }
year-membranes = membrana para { $rigs }
year-prefilters = prefiltros para { $rigs }
year-sums = La suma de cada mes es lo que conviene apartar: un cambio puede caer un mes antes o después.
year-membrane = Membrana de { $rig }: probablemente { $likely }, como pronto { $early }
year-none = Nada que comprar que pueda prever.
year-sheet = Año que viene
year-columns = Mes
    Resina
    Membranas
    Prefiltros
    Coste { $currency }
    Difícilmente menos
    Difícilmente más
file-year = El año que viene como hoja de cálculo.

cost-title = { $what }, { $span }: cerca de { $sum }.
cost-title-nothing = { $what }, { $span }: nada que tenga precio.
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
cost-none = { $what }, { $span }: no se anotó ningún cambio de resina, membrana ni prefiltros.
cost-unpriced = { $count ->
    [one] 1 de ellos no tiene precio y no cuenta. Para incluirlo, escribe por ejemplo: { $example }
   *[other] { $count } de ellos no tienen precio y no cuentan. Para incluirlos, escribe por ejemplo: { $example }
  }
cost-basis = Lo anotado, al precio que diste o, si no, al que tenías fijado ese día, con la mano de obra.

why-trend = Aún no hay tendencia: { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
  } en { $days ->
    [one] 1 día
   *[other] { $days } días
  }. Necesito ocho en 45 días.
why-old = La última lectura es de hace { $days } días.
why-jumped = La ósmosis dio un salto; el desgaste no da saltos.
why-presumed = Parece que cambiaron la membrana, pero nadie lo anotó.
why-age = Nadie anotó cuándo se puso esta membrana.
why-level = Su rechazo está por debajo del { $line } %.
why-near = Está cerca de tu límite para cambiarla.
why-pays = Con tus precios, una membrana nueva sale más barata que la resina que gasta esta.
why-steady = Sus lecturas son estables.
why-di = { $rig } no tiene membrana: solo cuenta el vidrio, { $ppm } ppm la última vez.

compare-none = { $rig } – { $state }
compare-di = { $rig } – sin membrana
who-title = Anotado { $span }:
who-line = { $name }: { $rigs }
who-none = Nadie anotó nada { $span }.
who-service = { $rig }, { $day }: { $name }
who-service-none = Eso no se ha anotado nunca.
somebody = alguien que ya no está
prefilters-due = Prefiltros: tocan el { $day }.
prefilters-overdue = Prefiltros: tocaban el { $day }. Un filtro de carbón viejo deja pasar cloro a la membrana.
