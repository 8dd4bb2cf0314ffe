# Ajustes. Cada texto `set-...` es lo que alguien podría escribir para poner
# ese mismo valor: se muestra, se copia, se cambia y se devuelve. Una prueba los lee todos.

set-currency = moneda { $value }
set-country = país { $value }
set-resin-price = precio resina { $value } el litro
set-membrane-price = precio membrana { $value }
set-prefilter-price = precio prefiltros { $value }
set-membrane-labour = mano de obra de la membrana { $value }
set-resin-labour = mano de obra de la resina { $value }
set-resin-litres = resina { $value }
set-litres-per-day = { $value } al día
set-busy-months = temporada alta { $months } { $value } %
set-wearing-line = línea de desgaste { $value } %
set-due-line = línea de aviso { $value } %
set-spent-line = línea de cambio { $value } %
set-spot-line = línea de manchas { $value } ppm
set-working-days = días de trabajo { $value }
set-day-ends = el día acaba a las { $value }
set-day-ends-on = el { $day } acaba a las { $value }
set-digest-at = resumen el { $day } a las { $value }
set-digest = { $value ->
    [0] resumen no
   *[other] resumen sí
  }
set-nudges = { $value ->
    [0] recordatorios no
   *[other] recordatorios sí
  }
set-notices = { $value ->
    [0] avisos no
   *[other] avisos sí
  }
set-quiet-hours = silencio { $from }-{ $to }
set-quiet-hours-off = silencio no
set-meter-ppm = medidor ppm
set-meter = medidor uS { $value }
set-degrees-c = grados C
set-degrees-f = grados F
set-pressure-unit-bar = presión bar
set-pressure-unit-psi = presión psi
set-volume-unit-l = volumen litros
set-volume-unit-gal = volumen galones
set-prefilter-days = prefiltros cada { $value } días
set-membranes = { $value ->
    [one] 1 membrana
   *[other] { $value } membranas
  }
set-resin-bed-yes = ósmosis y resina
set-resin-bed-no = solo ósmosis
set-stands-upright = de pie
set-stands-lying = tumbado
set-rated = nominal { $flow } gpd a { $temperature } F { $pressure } psi
set-name = nombre { $value }
set-zone = zona { $value }
set-keep-years = { $value ->
    [one] conservar 1 año
   *[other] conservar { $value } años
  }
set-keep-years-everything = conservar todo
set-time-off = días libres { $value }
set-time-off-span = { $ends ->
    [0] desde { $from }
   *[other] { $from } a { $last }
  }{ $why ->
    [parked] { " " }parado
    [garage] { " " }taller
    [broken] { " " }averiado
    [winter] { " " }invierno
    [preserved] { " " }conservante
    [lent] { " " }prestado
   *[off] { "" }
  }
set-short-names = también se llama { $value }
litres = { $value } litros
gallons = { $value } galones

setting-noted = Anotado: { $setting }.
setting-unusual = ¿{ $setting }? No es lo habitual, así que todavía no lo he anotado.
    Si es correcto, toca el botón o escribe: { $setting }, sí
setting-unusual-button = Anotarlo
setting-noted-rig = Anotado para { $rig }: { $setting }.
setting-as-before = Otra vez por defecto: { $setting }.
setting-default-none = Ya no está fijado.
setting-names-a-rig = Eso vale para un equipo. Así: { $rig } { $setting }
setting-for-all = Eso vale para toda la empresa. Sin el nombre del equipo: { $setting }
setting-lines-cross = Las líneas bajan de desgaste a aviso y a cambio. Ahora: { $wearing }, { $due }, { $spent } %. Mueve antes las otras.
setting-name-taken = "{ $name }" ya es { $rig }.
settings-title = { $outfit }. Para cambiar una línea, escríbela con otro valor.
settings-title-rig = { $rig }. Para cambiar una línea, escríbela con otro valor.
settings-defaults = Valores por defecto:
settings-missing = Sin fijar todavía. Por ejemplo:
settings-back = Volver al valor por defecto: { $example }
settings-back-example = línea de aviso normal
settings-back-example-rig = { $rig } resina normal
settings-currency = Falta la moneda. Escribe por ejemplo: moneda EUR
