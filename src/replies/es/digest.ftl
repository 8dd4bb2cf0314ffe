# El resumen del lunes, y lo que se dice entre uno y otro.

## Días e importes

tomorrow = mañana
by-day = { $ahead ->
    [0] hoy
    [1] para mañana
   *[other] antes del { $day }
  }
since-day = { $ago ->
    [0] desde hoy
    [1] desde ayer
   *[other] desde el { $day }
  }
on-day = { $ago ->
    [0] { $day }
    [1] { $day }
   *[other] el { $day }
  }

## Nombres en fila

digest-and-more = { $names } y { $count } más
digest-rigs = { $count ->
    [one] 1 equipo
   *[other] { $count } equipos
  }
digest-readings = { $count ->
    [0] ninguna lectura
    [one] 1 lectura
   *[other] { $count } lecturas
  }
digest-short = { $rig } { $fact }

## Titular

digest-headline-one = { $first }.
digest-headline-two = { $first }. { $second }.
digest-no-readings = Ninguna lectura { $since }. Hoy hace falta una de cada equipo.
digest-no-readings-rest = Ninguna lectura { $since }.
digest-no-readings-ever = Aún no hay lecturas. Bastan dos números al día: { $rig } 180 12
digest-calm = { $count ->
    [one] Todo bien: tu equipo no necesita nada esta semana.
   *[other] Todo bien: tus { $count } equipos no necesitan nada esta semana.
  }
digest-calm-unread = { $count ->
    [one] El equipo con lecturas no necesita nada; sin lectura: { $unread }.
   *[other] Los { $count } equipos con lecturas no necesitan nada; sin lectura: { $unread }.
  }
digest-only-to-buy = Esta semana no hay nada que arreglar, solo algo que comprar.
digest-wants-change-resin = { $count ->
    [one] { $rigs } dejará manchas sin resina nueva
   *[other] { $rigs } dejarán manchas sin resina nueva
  }
digest-wants-repack-resin = { $count ->
    [one] { $rigs } tiene la resina suelta
   *[other] { $rigs } tienen la resina suelta
  }
digest-wants-resin-soon = { $count ->
    [one] { $rigs } necesita resina esta semana
   *[other] { $rigs } necesitan resina esta semana
  }
digest-wants-find-leak = { $count ->
    [one] { $rigs } tiene una fuga
   *[other] { $rigs } tienen fugas
  }
digest-wants-read-again = Vuelve a medir { $rigs }
digest-wants-new-membrane = { $count ->
    [one] { $rigs } necesita una membrana nueva
   *[other] { $rigs } necesitan membranas nuevas
  }
digest-wants-plan-membrane = { $count ->
    [one] Prevé una membrana nueva para { $rigs }
   *[other] Prevé membranas nuevas para { $rigs }
  }
digest-wants-prefilters = { $count ->
    [one] { $rigs } necesita prefiltros
   *[other] { $rigs } necesitan prefiltros
  }
digest-wants-flush = { $count ->
    [one] { $rigs } se queda sin enjuagar
   *[other] { $rigs } se quedan sin enjuagar
  }
digest-wants-ask-membrane = { $count ->
    [one] Una pregunta sobre { $rigs }
   *[other] Preguntas sobre { $rigs }
  }
digest-wants-frost = Riesgo de heladas por la noche
digest-wants-quiet-person = { $count ->
    [one] { $rigs } dejó de anotar
   *[other] { $count } personas dejaron de anotar
  }
digest-still = Según las últimas lecturas:
digest-week = { $outfit }, del { $from } al { $to }: { $rigs }, { $readings }.

## Qué hacer: un equipo. Qué, y debajo por qué, para cuándo y qué ahorra o arriesga.

digest-change-resin = cambia la resina antes de la próxima ventana
    { $ppm } ppm en el vidrio dejan manchas
digest-repack-resin-spots = compacta bien la resina antes de la próxima ventana
    { $ppm } ppm dejan manchas; casi no se ha usado, así que el agua se cuela
digest-repack-resin = compacta bien la resina
    { $ppm } ppm en el vidrio con resina casi sin usar: el agua se cuela
digest-resin-today = resina nueva hoy
    la carga está casi gastada
digest-resin-by = resina nueva { $by }
    para entonces estará casi gastada
digest-resin-soon = resina nueva { $by }
    llévala en el equipo { $hand }, puede acabarse antes
digest-leak = busca la fuga, { $test }
    ósmosis { $before } → { $after } ppm { $since }
digest-leak-since = busca la fuga, { $test }
    saltó { $since }
digest-leak-cost = { $said }, cuesta cerca de { $money } de resina al mes
digest-read-again = vuelve a medirlo
    { $seen } está muy lejos de su { $usual } % habitual; deja correr el agua 5 minutos y enjuaga el vaso
digest-read-again-back = mídelo una vez más
    está otra vez como antes del salto; otra lectura así y está arreglado
digest-read-again-low = vuelve a medirlo
    { $seen } es bajo, pero aún es pronto para culpar a la membrana; enjuaga el vaso y luego revisa mangueras y juntas
digest-test-read-again = tras otra lectura con el vaso enjuagado
digest-test-hoses = primero mangueras, racores y bypass
digest-test-orings = primero las juntas
digest-test-chlorine = primero mide el cloro tras el carbón
digest-membrane-now = membrana nueva ya
    esperar cuesta cerca de { $money } al mes
digest-membrane-pays = membrana nueva ya
    ya cuesta menos que la resina de más
digest-membrane-between = prevé una membrana nueva
    lo más barato es cambiarla hacia { $likely } ({ $window })
digest-membrane-between-saves = prevé una membrana nueva
    lo más barato es cambiarla hacia { $likely } ({ $window }); esperar a que se agote cuesta cerca de { $money } más
digest-membrane-weigh = piensa en una membrana nueva
    está en el { $percent }; con tus precios puedo decir cuándo compensa
digest-membrane-weigh-later = piensa en una membrana nueva
    está en el { $percent }; unas lecturas más dirán cuándo compensa
digest-window-now = ya
digest-window-until = entre hoy y { $late }
digest-window-between = entre { $early } y { $late }
digest-prefilters-overdue = cambia los prefiltros, atrasados { $since }
    el carbón viejo deja pasar cloro a la membrana
digest-prefilters = cambia los prefiltros { $by }
digest-flush = enjuaga la membrana al final de la jornada
    hecho { $flushed } de { $worked } días la semana pasada
digest-ask-membrane = ¿lleva membrana nueva?
    da lecturas de nueva { $since }; escribe: { $rig } membrana nueva | { $rig } misma membrana
digest-idle-flush = sin lecturas desde hace { $days } días
    ¿Parado? Enjuágalo. ¿Trabajando? Que alguien lo mida.
digest-idle-preserve = sin lecturas desde hace { $days } días
    ¿parado? Pon la membrana en conservante: guantes, gafas, sigue la etiqueta
digest-frost-water = Heladas: el agua bajó a { $water }
    de noche guarda los equipos al abrigo o vacíalos como diga el fabricante: el hielo destruye membranas y revienta portafiltros
digest-frost-season = Época de heladas: de noche guarda los equipos al abrigo o vacíalos como diga el fabricante
    el hielo destruye membranas y revienta portafiltros
digest-quiet-rig = sin lecturas { $since }
    ¿parado o sin anotar?
digest-quiet-person = { $name }: sin lecturas la semana pasada
    { $before } en las cuatro semanas anteriores. Habla con esa persona.
digest-deed = { $rig }: { $deed }
digest-open-since = { $said }; pendiente { $since }

## Qué hacer: varios equipos

digest-many-change-resin = Resina nueva antes de la próxima ventana, o habrá manchas
    { $rigs }
digest-many-repack-resin = Compacta bien la resina, el agua se cuela
    { $rigs }
digest-many-resin-soon = Resina nueva esta semana
    { $rigs }
digest-many-leak = Busca las fugas: mangueras, racores, juntas
    { $rigs }
digest-many-read-again = Vuelve a medir estos
    { $rigs }
digest-many-membrane = Membranas nuevas, y lo que cuesta esperar un mes
    { $rigs }
digest-many-membrane-weigh = Piensa en membranas nuevas, estas están por debajo de su límite
    { $rigs }
digest-many-plan-membrane = Prevé membranas nuevas, lo más barato es cambiarlas
    { $rigs }
digest-many-prefilters = Cambia los prefiltros
    { $rigs }
digest-many-flush = Enjuagar la membrana al final de la jornada
    { $rigs }
digest-many-ask-membrane = ¿Membrana nueva sin anotar?
    { $rigs }; si es así, escribe: { $rig } membrana nueva
digest-many-idle = ¿Parados o sin anotar? Enjuaga los parados; a los 30 días, conservante
    { $rigs }
digest-many-quiet-rig = Sin lecturas: ¿parados o sin anotar?
    { $rigs }
digest-many-quiet-person = Dejaron de anotar: habla con ellos
    { $rigs }
digest-short-ppm = ({ $ppm } ppm)
digest-short-month = ya ({ $money })
digest-short-overdue = atrasado { $since }
digest-short-jump = { $since } (ósmosis { $before } → { $after })
digest-short-flush = { $flushed } de { $worked } días
digest-short-days = { $days } días

## El final del primer mensaje

digest-fleet = Membranas: { $states }.
digest-count-good = { $count } bien
digest-count-fading = { $count } con desgaste
digest-count-due = { $count } por cambiar
digest-count-spent = { $count ->
    [one] 1 agotada
   *[other] { $count } agotadas
  }
digest-count-fault = { $count } con una fuga por buscar
digest-count-unproven = { $count } aún sin veredicto
digest-count-di = { $count ->
    [one] 1 equipo sin membrana
   *[other] { $count } equipos sin membrana
  }
digest-buy = Compras para dos semanas: { $goods }.
digest-buy-sum = Compras para dos semanas: { $goods }, { $sum }.
digest-buy-partial = Compras para dos semanas: { $goods }, { $sum } más lo que aún no tiene precio.
digest-good-resin = { $quantity } L de resina
digest-good-prefilters = { $count ->
    [one] 1 juego de prefiltros
   *[other] { $count } juegos de prefiltros
  }
digest-good-membrane = { $count ->
    [one] 1 membrana
   *[other] { $count } membranas
  }
digest-caution-pressure = Antes de abrir un portafiltros: agua cerrada y presión quitada.
digest-more = Más

## Más

digest-then-title = Después de eso
digest-table-title = Flota, lo urgente primero (puntos al año, resina en días de trabajo)
digest-row = { $rig } { $facts }
digest-row-level = { $percent }{ $basis }, { $state }
basis-corrected = { " " }a 12 °C
digest-row-jump = – { $state }, la membrana sola { $percent }{ $basis }
digest-row-glass = vidrio { $ppm } ppm
digest-row-di = sin membrana
digest-row-trend = pierde { $points } al año
digest-row-resin = resina { $days } d
digest-row-resin-out = resina gastada
digest-row-flushes = enjuague { $done }/{ $due }
digest-row-last = última lectura { $on }
digest-row-never = sin lecturas aún
digest-row-aside = { $count ->
    [one] 1 lectura apartada
   *[other] { $count } lecturas apartadas
  }
digest-table-left = y { $count } más, en la hoja de cálculo
digest-table-calm = Nada que hacer: { $rigs }
digest-calm-name = { $rig } { $percent } %
digest-shopping-title = Compras para dos semanas
digest-purchase = { $good }: { $rigs }
digest-purchase-cost = { $good }, { $cost }: { $rigs }
digest-litres-for = { $rig } { $quantity }
digest-shopping-total = En total: { $sum }
digest-shopping-unpriced = Lo que no tiene precio no está en el total. Para ver los precios, escribe: ajustes
digest-shopping-weigh = Membranas por pensar (faltan precios o lecturas): { $rigs }
digest-shopping-uncounted = Resina sin calcular (falta el tamaño, los litros al día o el último cambio): { $rigs }
digest-shopping-unlogged = Prefiltros nunca anotados: { $rigs }
digest-quiet-rigs = Sin lecturas la semana pasada: { $rigs }
digest-quiet-rig-since = { $rig } ({ $since })
digest-quiet-people = Dejaron de anotar, con sus lecturas de las cuatro semanas anteriores: { $people }
digest-quiet-name = { $name } ({ $count })
digest-jumps-opened = Saltos de la ósmosis: { $rigs }
digest-jumps-closed = La ósmosis volvió a lo normal: { $rigs }
digest-jump = { $rig } { $on } ({ $before } → { $after } ppm)
digest-jump-closed = { $rig } { $on } (estaba en { $after } ppm)
digest-followed-title = Lo pedido el lunes pasado
digest-followed-done = Hecho: { $items }
digest-followed-open = Pendiente: { $items }
digest-followed-said = Anotado como hecho, pero las lecturas no mejoran: { $items }
digest-followed-gone = Ya no hace falta: { $items }
digest-followed-name = { $name } ({ $what })
digest-noun-resin = resina
digest-noun-repack = compactar
digest-noun-leak = fuga
digest-noun-membrane = membrana
digest-noun-prefilters = prefiltros
digest-noun-flush = enjuague
digest-noun-question = pregunta de la membrana
digest-noun-idle = parado
digest-noun-readings = lecturas

## Entre dos resúmenes: tres líneas cortas como mucho

note-resin-done = { $rig }: cambia la resina antes de la próxima ventana.
    { $ppm } ppm en el vidrio dejan manchas.
note-resin-low = { $rig }: a este paso la resina estará gastada { $by }.
    Lleva una carga en el equipo y mira el vidrio: desde 10 ppm deja manchas.
note-resin-low-ppm = { $rig }: a este paso la resina estará gastada { $by }.
    Vidrio { $ppm } ppm la última vez; desde 10 ppm deja manchas. Lleva una carga en el equipo.
note-frost-water = Heladas: el agua bajó a { $water }.
    Esta noche guarda los equipos al abrigo, o vacíalos como diga el fabricante.
note-frost-season = Época de heladas.
    En noches frías guarda los equipos al abrigo, o vacíalos como diga el fabricante.
note-membrane-costs = { $rig } { $percent }: una membrana nueva ya compensa.
    Esperar cuesta cerca de { $money } al mes. Segunda semana seguida.
note-membrane-pays = { $rig } { $percent }: una membrana nueva ya compensa.
    Segunda semana seguida.
note-membrane-weigh = { $rig } { $percent }: mira si compensa una membrana nueva.
    Por debajo de tu límite, segunda semana seguida.
note-membrane-weigh-prices = { $rig } { $percent }: mira si compensa una membrana nueva.
    Por debajo de tu límite, segunda semana seguida. Con tus precios puedo decir cuándo compensa.
note-idle-5 = Sin lecturas de { $rig } desde hace { $days } días.
    Si está parado, enjuaga la membrana diez minutos al desagüe, y repítelo cada semana.
note-idle-14 = Sin lecturas de { $rig } desde hace { $days } días.
    Si está parado, enjuaga hoy la membrana diez minutos al desagüe.
    ¿Otras dos semanas parado? Entonces prevé ponerla en conservante.
note-idle-30 = Sin lecturas de { $rig } desde hace { $days } días.
    Si está parado, pon la membrana en conservante y protégela del hielo.
    Antes de la próxima ventana, enjuágala bien.
note-prefilters = { $rig }: cambia los prefiltros { $by }.
    El carbón viejo deja pasar cloro a la membrana.
note-prefilters-overdue = { $rig }: prefiltros atrasados { $since }.
    El carbón viejo deja pasar cloro a la membrana.
note-ask-membrane = { $rig } da lecturas de membrana nueva { $since }.
    ¿Lleva una nueva?
note-press-changed = Cambiada
note-press-changed-filters = Cambiados
note-press-flushed = Enjuagado
note-press-preserved = En conservante
note-press-week = En una semana
note-press-ok = Entendido
note-press-works = Está trabajando
note-press-not-now = Ahora no
note-press-new = Sí, es nueva
note-press-same = No, la misma
note-answer-week = Vale, vuelvo a preguntar en una semana.
note-answer-put-off = Vale: la membrana de { $rig } queda fuera del resumen y de la lista de compras hasta el { $day }.
note-answer-ok = Vale.
preserved-noted = { $rig }: membrana en conservante. Anotado; no vuelvo a preguntar hasta que trabaje.
    Renueva el conservante como diga su etiqueta; antes de la próxima ventana, enjuágala bien.
preserved-since = Membrana en conservante { $since }: antes de la próxima ventana, enjuágala bien.
preserved-withdrawn = membrana en conservante

## A petición

sent-in-private = Te lo mandé en privado.
digest-no-more = Eso era todo.
file-digest = La semana como hoja de cálculo.
file-calendar = Fechas para tu calendario. Importa el próximo archivo para ponerlas al día.
file-calendar-empty = Nada tiene fecha aún: hacen falta lecturas, y cambios de resina y prefiltros anotados.
## La hoja de cálculo. De cada columna, la primera línea es el título y la segunda lo que significa.

sheet-fleet = Flota
sheet-actions = Qué hacer
sheet-shopping = Compras
sheet-readings = Lecturas
sheet-key = Leyenda
sheet-key-column = columna
sheet-key-meaning = significado
sheet-no-currency = moneda sin indicar
column-rig = equipo
    Su nombre.
column-state = estado
    De la membrana: bien, con desgaste, por cambiar, agotada; aún es pronto con pocas lecturas; buscar una fuga tras un salto.
column-rejection = rechazo, %
    Parte de los sólidos disueltos que la membrana retiene, a 12 °C y con la presión habitual del equipo.
column-low = mínimo, %
    Nueve de cada diez veces el rechazo está por encima.
column-high = máximo, %
    Nueve de cada diez veces el rechazo está por debajo.
column-trend = pierde, puntos al año
    Puntos de rechazo que la membrana pierde al año.
column-resin = resina, días de trabajo
    Días de trabajo que la carga durará probablemente.
column-glass = vidrio, ppm
    Últimos sólidos disueltos tras la resina; desde 10 ppm el vidrio queda con manchas.
column-flushed = enjuagado, días
    Días de la semana al final de los cuales se enjuagó la membrana.
column-worked = trabajado, días
    Días de la semana en que el equipo trabajó.
column-count = lecturas
    Lecturas de la semana.
column-last = última lectura
    Día de la última lectura de todas.
column-number = n.º
    El orden: riesgo para el vidrio, luego averías, luego dinero al mes, luego fechas.
column-what = qué hacer
    Qué, y por qué.
column-by = para
    El día para el que debe estar hecho.
column-month = al mes, { $currency }
    Lo que cuesta esperar un mes, si se sabe.
column-since = pendiente desde
    El primer lunes seguido que lo pidió.
column-good = qué comprar
    Para las próximas dos semanas.
column-quantity = cantidad
    Litros de resina, juegos de prefiltros, membranas.
column-cost = coste, { $currency }
    Donde hay precios.
column-for = para
    Los equipos a los que toca.
column-day = día
    Día local en que se tomó la lectura.
column-tap = red, ppm
    Sólidos disueltos del agua de red.
column-ro = ósmosis, ppm
    Sólidos disueltos a la salida de la ósmosis.
column-raw = rechazo sin corregir, %
    (red - ósmosis) / red, sin corregir.
column-water = agua, °C
    Temperatura del agua de red.
column-pressure = presión, kPa
    De la red, por encima de la del aire.
column-aside = cuenta
    Sí, o no si se apartó por dudosa.
sheet-yes = sí
sheet-no = no

## El calendario

calendar-name = { $outfit }: agua
calendar-resin = { $rig }: resina probablemente gastada
calendar-prefilters = { $rig }: cambiar los prefiltros
calendar-membrane = { $rig }: membrana nueva, lo más barato es por estas fechas
calendar-range = Entre { $early } y { $late }.
calendar-range-days = Entre el { $early } y el { $late }.
