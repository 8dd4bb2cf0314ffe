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
rough-span = de { $from } a { $to }

## La historia de un equipo

picture-check = { $rig }: primero busca una fuga
picture-unproven = { $rig }: muy pocas lecturas
picture-spent = { $rig }: toca membrana nueva
picture-pays-now = { $rig }: ya conviene otra membrana
picture-renew-by = { $rig }: otra membrana hacia { $date }
picture-due = { $rig }: piensa en otra membrana
picture-wearing-until = { $rig }: con desgaste, cambio hacia { $date }
picture-wearing = { $rig }: con desgaste, no la pierdas de vista
picture-sound-until = { $rig }: bien, cambio hacia { $date }
picture-sound-long = { $rig }: bien, y para años
picture-sound = { $rig }: bien por ahora
picture-level = Rechaza { $percent } ({ $low }-{ $high }) hoy, { $readings ->
    [one] con 1 lectura
   *[other] con { $readings } lecturas
  }
picture-level-check = { $seen } desde { $day ->
    [hoy] hoy
    [ayer] ayer
   *[other] el { $day }
  }; la membrana sola, { $percent }
picture-basis = { $readings ->
    [0] Aún no cuenta ninguna lectura
    [one] 1 lectura hasta ahora
   *[other] { $readings } lecturas hasta ahora
  }
picture-jump = { $day ->
    [hoy] salto hoy
    [ayer] salto ayer
   *[other] salto el { $day }
  }
picture-not-before = no antes de { $date }
picture-trend = tendencia a 12 °C
picture-forecast = previsión
picture-due-zone = por cambiar bajo { $percent } %
picture-spent-zone = agotada bajo { $percent } %
picture-resin = resina
picture-reading = lectura
picture-set-aside = apartada
picture-band = tendencia, banda 80 %
picture-no-readings = Aún no hay lecturas

## La flota

picture-fleet-empty = Aún no hay equipos
picture-fleet-fine = { $count ->
    [one] Tu equipo está en orden
   *[other] Los { $count } equipos están en orden
  }
picture-fleet-wants = { $count ->
    [one] Tu equipo pide atención
   *[other] { $wanting ->
        [one] 1 de { $count } equipos pide atención
       *[other] { $wanting } de { $count } equipos piden atención
      }
  }
picture-fleet-shows = Rechazo en { $weeks } semanas, lo urgente primero
picture-fleet-shows-resin = Vidrio y resina, lo urgente primero
picture-glass = vidrio { $ppm } ppm
picture-count = { $count } { $state }
picture-more = { $count } más:
picture-others = Los demás equipos, lo urgente primero
picture-short-now = resina: cambiar ya
picture-short-loose = resina: compactar
picture-short-long = resina: 30+ días
picture-short-days = resina: { $days } días

## La resina

picture-resin-unknown = { $rig }: resina aún sin calcular
picture-resin-now = { $rig }: cambia ya la resina
picture-resin-loose = { $rig }: compacta la resina
picture-resin-long = { $rig }: resina para más de 30 días
picture-resin-days = { $days ->
    [0] { $rig }: resina para menos de un día
    [one] { $rig }: resina para 1 día de trabajo
   *[other] { $rig }: resina para unos { $days } días de trabajo
  }
picture-resin-range = Quedan { $days } días de trabajo, según lo que duraron otras
picture-resin-spots = El vidrio quedará con manchas: la resina deja pasar demasiado
picture-resin-early = Alto tan pronto tras el cambio: el agua se cuela por un lado
picture-resin-tell = Para saberlo, di los litros de resina y de agua al día
picture-resin-log = Anota su próximo cambio y cuento desde ahí
picture-beds-shrink = Cada carga dura menos, { $first } y luego { $last } días: mira la membrana
picture-working-days = { $days } jornadas
picture-full = llena
picture-lasted = días
picture-load = lo que tomó cada carga
picture-no-resin = Aún no hay cambios de resina anotados

## El dinero

picture-cheapest = { $date }: { $money } al año
picture-cheapest-now = ahora: { $money } al año
picture-rule = regla del { $percent } %: { $date }, { $money } más caro
picture-cost-axis = Membrana y resina al año, según el día del cambio
picture-flat = tan bueno como lo más barato (hasta 2 % más)
picture-waiting-costs = Esperar cuesta unos { $money } al mes
picture-waiting-saves = Esperar aún ahorra unos { $money } al mes
picture-waiting-nothing = Un mes antes o después cuesta lo mismo
