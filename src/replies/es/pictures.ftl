# En las imágenes. Corto: en un título caben unas 35 letras, en una etiqueta 25.

## Números y días

percent = { $percent } %
rough-date = { $part ->
    [1] principios
    [2] mediados
   *[3] finales
  } de { $month ->
    [1] ene
    [2] feb
    [3] mar
    [4] abr
    [5] may
    [6] jun
    [7] jul
    [8] ago
    [9] sep
    [10] oct
    [11] nov
   *[12] dic
  }

picture-days = { $days ->
    [one] 1 día
   *[other] { $days } días
  }
picture-ppm = { $ppm } ppm
picture-about = unos
picture-near = hacia
picture-now = ahora

## La historia de un equipo

picture-check = { $rig }: primero busca una fuga
picture-unproven = { $rig }: aún es pronto
picture-spent = { $rig }: membrana nueva ya
picture-pays-now = { $rig }: pide una membrana ya
picture-renew-by = { $rig }: otra membrana, { $date }
picture-due = { $rig }: piensa en otra membrana
picture-lasts = { $rig }: aguanta hasta { $date }
picture-fading = { $rig }: con desgaste, vigílala
picture-good-long = { $rig }: bien, y para años
picture-good = { $rig }: bien por ahora
picture-level = { $state }: { $percent } ({ $range }), { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
  }
picture-as-read = { $percent } según el medidor, { $readings ->
    [one] 1 lectura cuenta
   *[other] { $readings } lecturas cuentan
  }
picture-text-it = Escribe su nombre, la red y la RO
picture-no-readings = aún sin lecturas
picture-axis = rechazo
picture-axis-corrected = rechazo a 12 °C
picture-floor-about = { $percent } hacia
picture-floor-after = { $percent } desde
picture-dots = puntos: lecturas
picture-rings = aros: apartadas
picture-resin = resina
picture-membrane = membrana
picture-mended = fuga, reparada

## Una fuga

picture-fell = De { $before } a { $after } % de golpe: avería, no desgaste
picture-lately = últimas { $weeks } semanas
picture-lost = { $points ->
    [one] 1 punto menos
   *[other] { $points } puntos menos
  }
picture-permeate = RO { $before }, luego { $after } ppm
picture-alone = sola { $percent }
picture-where-to-look = Mangueras, racores y bypass; luego mide otra vez

## La flota

picture-fleet-empty = Aún no hay equipos
picture-fleet-fine = { $count ->
    [one] Tu equipo está bien
   *[other] { $count } equipos, todos bien
  }
picture-fleet-nothing = Nada que comprar ni reparar esta semana
picture-first = Primero { $rig }: { $deed }
picture-fleet-wants = { $wanting ->
    [one] 1 de { $count } equipos pide trabajo
   *[other] { $wanting } de { $count } equipos piden trabajo, en este orden
  }
picture-job = { $job ->
    [change] resina nueva hoy
    [repack_resin] compactar la resina
    [find_leak] buscar una fuga
    [read_again] medir otra vez
    [renew] membrana nueva ya
    [order] pedir una membrana
    [plan] planear el cambio
    [look] mirar el vidrio
    [buy] comprar resina
    [prefilters] prefiltros nuevos
   *[ask_membrane] di qué cambió
  }
picture-was = antes { $percent }
picture-glass = en el vidrio
picture-resin-left = de resina
picture-resin-axis = resina que queda
picture-legend = { $weeks } semanas; suelo: { $floor }, o sin resina
picture-more = { $count } equipos más: en la otra imagen
picture-others = los demás, lo urgente primero

## La resina

picture-resin-unknown = { $rig }: resina aún sin calcular
picture-resin-now = { $rig }: cambia la resina ya
picture-resin-loose = { $rig }: compacta la resina
picture-resin-buy = { $rig }: compra resina esta semana
picture-resin-long = { $rig }: resina para más de 30 días
picture-resin-days = { $rig }: resina para unos { $days } días
picture-resin-range = Quedan { $days } días de trabajo en esta carga
picture-in-use = { $days } días en uso; suele durar { $usual }
picture-resin-spots = Deja pasar demasiado: habrá manchas
picture-resin-early = Alto tan pronto: el agua se cuela por un lado
picture-resin-tell = Di sus litros y el agua que usa al día
picture-resin-log = Anota el próximo cambio y cuento desde ahí
picture-beds-shrink = { $first } días, ahora { $last }: mira la membrana
picture-over = { $days ->
    [one] +1 día
   *[other] +{ $days } días
  }
picture-fresh = nueva
picture-half = mitad
picture-used-up = agotada
picture-slopes = Cada rampa es una carga, con sus días
picture-no-slopes = Cada marca es un cambio, con los días entre ellos
picture-no-resin = Aún no hay cambios de resina anotados

## El dinero

picture-rule = regla del { $percent }: { $money } más
picture-cost-axis = coste al año, según el mes del cambio
picture-flat = hasta 2 % más
picture-waiting-costs = Esperar cuesta unos { $money } al mes
picture-waiting-saves = Esperar aún ahorra unos { $money } al mes
picture-waiting-nothing = Un mes antes o después cuesta lo mismo

## El año que viene

picture-year = Aparta { $money } para el año
picture-year-range = Entre { $low } y { $high }; { $soon } hasta { $month }
picture-each = de { $litres } L
picture-prefilters = prefiltros
picture-range = margen
