# Números y días.

# Entre la parte entera de un número y sus decimales.
decimal-mark = ,
# Entre los miles de una suma.
thousands-mark = { "" }

today = hoy
# Un texto que recibe un día puede distinguir "hoy" y "ayer" de los que llevan artículo.
earlier-today = hoy
yesterday = ayer
weekday = { $day ->
    [1] lunes
    [2] martes
    [3] miércoles
    [4] jueves
    [5] viernes
    [6] sábado
   *[7] domingo
  }
date = { $day } { $month ->
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
date-year = { $date } { $year }
month-year = { $month ->
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
  } { $year }

## Listas

# De un día a otro.
days-span = { $from ->
    [ayer] de ayer
   *[other] del { $from }
  } { $to ->
    [hoy] a hoy
    [ayer] a ayer
   *[other] al { $to }
  }
list-and = { $first } { $link } { $last }
list-or = { $first } { $link } { $last }
and = y
and-before-i = e
or = o
or-before-o = u

## Dinero y meses

month = { $month ->
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
# Un signo que se pone como lo hace la lengua, por ejemplo el del euro.
money-by-language = { $number } { $sign }
