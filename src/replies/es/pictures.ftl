# En las imágenes. Breve: un titular tiene sitio para unas 35 letras, una
# etiqueta para 25.

## Cifras y días

percent = { $percent } %
month-short = { $month ->
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
rough-date = { $part ->
    [1] inicios de
    [2] mediados de
   *[3] fines de
  } { $month ->
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
rough-span = { $from } a { $to }

## La historia de un equipo

picture-rig = { $rig }
picture-check = { $rig }: busca primero una fuga
picture-unproven = { $rig }: aún hay pocas lecturas
picture-spent = { $rig }: toca membrana nueva
picture-pays-now = { $rig }: renovar ya compensa
picture-renew-by = { $rig }: renovar a { $date }
picture-due = { $rig }: piensa en renovar
picture-wearing-until = { $rig }: con desgaste, hasta { $date }
picture-wearing = { $rig }: con desgaste, vigílalo
picture-sound-until = { $rig }: bien, hasta { $date }
picture-sound-long = { $rig }: bien, para años
picture-sound = { $rig }: bien por ahora
picture-level = Rechaza { $percent } % ({ $low }-{ $high }) hoy, { $readings ->
    [one] con 1 lectura
   *[other] con { $readings } lecturas
  }
picture-level-check = { $seen } % desde { $day }; la membrana sola { $percent } %
picture-basis = { $readings ->
    [0] Aún no cuenta ninguna lectura
    [one] 1 lectura hasta ahora
   *[other] { $readings } lecturas hasta ahora
  }
picture-jump = salto { $day }
picture-not-before = no antes de { $date }
picture-trend = tendencia a 12 °C
picture-forecast = pronóstico
picture-due-zone = por cambiar, bajo { $percent } %
picture-spent-zone = agotada, bajo { $percent } %
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
picture-glass = vidrio { $ppm } ppm
picture-count = { $count } { $state }
picture-more = { $count } más:
picture-others = { $count ->
    [one] El otro equipo
   *[other] Los otros { $count } equipos, lo urgente primero
  }
picture-short-now = resina: cambiar ya
picture-short-loose = resina: compactar
picture-short-long = resina: más de 30 días
picture-short-days = resina: { $days } días

## La resina

picture-resin-unknown = { $rig }: resina sin calcular aún
picture-resin-now = { $rig }: cambia ya la resina
picture-resin-loose = { $rig }: compacta bien la resina
picture-resin-long = { $rig }: resina para más de 30 días
picture-resin-days = { $days ->
    [0] { $rig }: resina para menos de un día
    [one] { $rig }: resina para 1 día laborable
   *[other] { $rig }: resina para { $days } días laborables
  }
picture-resin-range = Quedan { $days } días laborables, por lo que tomó cada lecho
picture-resin-spots = El vidrio se manchará: pasa demasiado por la resina
picture-resin-early = Alto tan pronto tras un cambio: el agua se cuela
picture-resin-tell = Di los litros de resina y de agua al día para saberlo
picture-beds-shrink = Duran cada vez menos, { $first } y luego { $last } días: mira la membrana
picture-working-days = { $days } días laborables
picture-full = lleno
picture-lasted = días
picture-load = lo que tomó cada lecho
picture-no-resin = Aún no hay cambios de resina apuntados

## El dinero

picture-cheapest = { $date }: { $money } al año
picture-cheapest-now = ahora: { $money } al año
picture-rule = Regla del { $percent } %: { $date }, { $money } más
picture-cost-axis = Membrana y resina al año, según el día de renovar
picture-flat = casi igual de barato (menos de 2 %)
picture-waiting-costs = Esperar cuesta unos { $money } al mes
picture-waiting-saves = Esperar aún ahorra unos { $money } al mes
picture-waiting-nothing = Un mes antes o después cuesta lo mismo
