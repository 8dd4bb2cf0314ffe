# Los archivos del resumen: hojas, columnas y días en un calendario.

sheet-actions = Qué hacer
sheet-fleet = Flota
sheet-shopping = Por comprar
sheet-readings = Lecturas
sheet-key = Clave
file-digest = La semana como hoja de cálculo.
file-calendar = Fechas para tu calendario. Un archivo posterior las mueve.
file-calendar-empty = Nada tiene fecha aún: hacen falta lecturas y cambios de resina y prefiltros apuntados.

column-place = N.º
column-what = Qué
column-why = Por qué
column-rig = Equipo
column-state = Estado
column-rejection = Rechazo a 12 °C
column-rejection-low = desde
column-rejection-high = hasta
column-points = Puntos perdidos al año
column-resin-low = Resina, días laborables, mínimo
column-resin-likely = Resina, días laborables, probable
column-resin-high = Resina, días laborables, máximo
column-glass = Vidrio, ppm
column-flushed = Días lavados
column-worked = Días de trabajo
column-readings = Lecturas
column-last = Última lectura
column-quantity = Cantidad
column-unit = Unidad
column-sum = Costo de todo
column-day = Día
column-tap = Red, ppm
column-ro = Ósmosis, ppm
column-raw-rejection = Rechazo leído
column-temperature = Agua, °C
column-pressure = Presión, kPa
column-column = Columna
column-meaning = Significado

explain-state = bien, con desgaste, por cambiar o agotada según el rechazo; por confirmar: pocas lecturas; revisar: un salto, busca primero un fallo
explain-rejection = (red - ósmosis) / red de la membrana, corregido por agua fría y poca presión donde se dieron
explain-interval = cuatro de cada cinco veces la verdad está entre estos dos
explain-points = puntos de rechazo que pierde al año; negativo: gana
explain-resin = días laborables hasta agotar el lecho, aprendidos de sus lecturas y cambios
explain-glass = última lectura tras la resina; con 10 ppm o más deja manchas
explain-flushed = días de la última semana en que se lavó, de los días en que trabajó
explain-raw-rejection = (red - ósmosis) / red de esa lectura
explain-pressure = presión manométrica antes de la membrana

state-di-only = sin membrana
good-resin = resina
good-prefilters = prefiltros
good-membrane = membrana
unit-litres = litros
unit-sets = juegos
unit-pieces = piezas

event-resin = { $rig }: resina nueva
event-resin-about = El lecho estará agotado por estas fechas. Quita la presión antes de abrirlo.
event-prefilters = { $rig }: prefiltros
event-prefilters-about = Toca por calendario. Quita la presión antes de abrir la carcasa.
event-membrane = { $rig }: membrana nueva
event-membrane-about = Lo más barato por estas fechas, según lo que se sabe hoy. Quita la presión antes de abrir la carcasa.
