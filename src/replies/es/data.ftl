# Los datos del dueño: exportar, importar, quién cambió qué, cerrar.

in-private = Eso es para nuestro chat privado. Escríbelo allí.

close-sure = Para cerrar { $outfit } del todo, escribe su nombre: cerrar empresa { $outfit }
    Desde entonces no se anota nada, y una semana después se borra todo. Arriba tienes una última copia.
closing-to-owner = { $outfit } está cerrada: no se anota nada, y el { $day } se borra todo. Para evitarlo: conservar empresa
closing-to-crew = { $outfit } la ha cerrado su dueño. No se anota nada, y el { $day } se borra todo.
outfit-kept = { $outfit } sigue. Las lecturas vuelven a contar.
not-closing = { $outfit } no se está cerrando. Todo sigue.

keep-sure = Con "{ $setting }" se borra para siempre todo lo anterior al { $day }: ahora { $what }, y desde entonces lo que se haga más viejo. ¿Seguro?
    Ya no contará en ningún cálculo. Antes, una copia: exportar
    Toca el botón o escribe: { $setting }, sí
keep-button = Borrar
keep-noted = Anotado: { $setting }. Aún no hay nada tan viejo. Desde ahora lo más viejo se borra para siempre, sin volver a preguntar.
keep-deleting = Anotado: { $setting }. Todo lo anterior al { $day } se borra para siempre en el plazo de un día: { $what }.
    Para evitarlo: conservar todo
keep-for-good = Anotado: conservar todo. No se borra nada por viejo.

exported = Eso es todo lo que guardo: { $what }, los ajustes y la gente.
    El libro lo tiene todo, y una última hoja que explica cada columna. Los otros archivos se pueden volver a leer: importar
exported-bare = Eso es todo lo que guardo: los ajustes y la gente. El archivo de texto se puede volver a leer: importar
counted-readings = { $count ->
    [one] 1 lectura
   *[other] { $count } lecturas
  }
counted-services = { $count ->
    [one] 1 trabajo
   *[other] { $count } trabajos
  }
counted-rigs = { $count ->
    [one] 1 equipo
   *[other] { $count } equipos
  }
counted-settings = { $count ->
    [one] 1 ajuste
   *[other] { $count } ajustes
  }
key-title = clave
key-sheet = hoja
key-column = columna
key-meaning = significado
key-rig = El nombre del equipo; si se quitó, lleva "removed" detrás.
key-taken = Cuándo se midió el agua, según el reloj de la empresa (ISO 8601).
key-done = Cuándo se hizo, según el reloj de la empresa (ISO 8601).
key-feed = Red (entrada), ppm de sólidos disueltos.
key-permeate = Salida de ósmosis (permeado), ppm de sólidos disueltos. Vacío en un equipo sin membrana.
key-product = Vidrio (producto, tras la resina), ppm de sólidos disueltos.
key-temperature = Temperatura del agua de entrada, grados Celsius.
key-pressure = Presión del agua de entrada, kPa sobre la del aire (manométrica).
key-permeate-flow = Caudal de permeado, litros por minuto.
key-waste-flow = Caudal al desagüe, litros por minuto.
key-feed-us = La red como se escribió en uS/cm, si fue así.
key-permeate-us = La salida de ósmosis como se escribió en uS/cm, si fue así.
key-product-us = El vidrio como se escribió en uS/cm, si fue así.
key-by = Quién la mandó: nombre de pila.
key-withdrawn = Cuándo se anuló. Esa fila ya no cuenta ni se vuelve a leer.
key-what = membrane (membrana), resin (resina), repack (compactada), prefilter (prefiltro), flush (enjuague), oring (junta), preserved (en conservante), o same-membrane: alguien dijo que no se cambió.
key-minutes = Cuánto duró, en minutos.
key-price = Lo que costó, en la unidad menor de la moneda de la empresa, como céntimos.
key-kind = ro: con membrana. di: solo resina.
key-flush = hand: se enjuaga a mano. itself: se enjuaga solo.
key-added = Cuándo se agregó.
key-removed = Cuándo se quitó.
key-setting-rig = El equipo, si el ajuste es solo de uno.
key-setting = Qué ajuste.
key-value = Su valor, tal como se guarda.
key-since = Desde cuándo.
key-name = Nombre de pila.
key-role = owner (dueño), lead (encargado) o crew (operario).

import-how = Mándame una hoja como archivo CSV, o pega sus filas debajo de la palabra importar:
    importar
    equipo,fecha,red,ósmosis
    garza,2026-03-02 07:40,180,12
    Trabajos: equipo,fecha,trabajo. Ajustes: uno por línea, como: precio resina 9. Verás lo que entraría antes de que entre.
import-no-headings = No distingo las columnas. La primera línea tiene que nombrarlas, así:
    equipo,fecha,red,ósmosis
    o para trabajos: equipo,fecha,trabajo
import-too-many = Son más de { $most } filas. Mándalas por partes.
import-dates = ¿{ $date } lleva primero el día o primero el mes?
    Toca un botón o escribe: primero el día | primero el mes
label-day-first = Primero el día
label-month-first = Primero el mes
import-readings = { $count ->
    [one] 1 lectura nueva
   *[other] { $count } lecturas nuevas
  }
import-services = { $count ->
    [one] 1 trabajo nuevo
   *[other] { $count } trabajos nuevos
  }
import-rigs = { $count ->
    [one] 1 equipo es nuevo o cambia
   *[other] { $count } equipos son nuevos o cambian
  }
import-settings = { $count ->
    [one] 1 ajuste es nuevo o cambia:
   *[other] { $count } ajustes son nuevos o cambian:
  }
import-span = { $what }, del { $from } al { $until }
import-on-a-day = { $what }, del { $day }
import-new-rigs = Equipos nuevos, se agregarían: { $rigs }
import-known = { $count ->
    [one] 1 línea ya estaba y no entra.
   *[other] { $count } líneas ya estaban y no entran.
  }
import-withdrawn = { $count ->
    [one] 1 línea está anulada y no entra.
   *[other] { $count } líneas están anuladas y no entran.
  }
import-ahead = { $count ->
    [one] 1 línea tiene fecha futura y no entra.
   *[other] { $count } líneas tienen fecha futura y no entran.
  }
import-misnamed = { $count ->
    [one] 1 línea lleva un nombre que no puede ser de un equipo, y no entra.
   *[other] { $count } líneas llevan un nombre que no puede ser de un equipo, y no entran.
  }
import-too-old = { $count ->
    [one] 1 línea es más vieja que lo que se guarda, y no entra.
   *[other] { $count } líneas son más viejas que lo que se guarda, y no entran.
  }
import-keep-apart = No entra, porque borra lo viejo. Para fijarlo, escribe: { $setting }
import-left-out = Columnas que no conozco: { $columns }
import-odd = { $count ->
    [one] 1 línea entra, pero parece un error:
   *[other] { $count } líneas entran, pero parecen errores:
  }
odd-risen = la ósmosis no queda por debajo de la red
odd-far-tap = la red queda lejos de lo habitual
import-bad = { $count ->
    [one] 1 línea no se entiende y no entraría:
   *[other] { $count } líneas no se entienden y no entrarían:
  }
import-more-bad = y { $count } más
bad-line = línea { $line }: { $why }
bad-line-cell = línea { $line }: { $why } ("{ $cell }")
bad-no-rig = falta el equipo
bad-no-time = sin fecha, o no la entiendo
bad-no-feed = falta la lectura de la red
bad-no-second = ni ósmosis ni vidrio
bad-no-number = no es un número
bad-too-far = ningún medidor da eso
bad-no-service = no conozco ese trabajo
bad-open-quote = unas comillas que no se cierran
bad-no-setting = no conozco ese ajuste
bad-needs-rig = eso es de un equipo, y no se nombra ninguno
bad-for-all = eso vale para toda la empresa, no para un equipo
bad-lines-cross = las líneas tienen que bajar: desgaste, aviso, cambio
bad-name-taken = así se llama ya otro equipo
bad-no-zone = no conozco esa zona
import-adds-nothing = No hay nada nuevo que importar.
import-sure = ¿Las importo? Toca un botón o escribe: importar ya | descartar importación
import-several = Hay { $count } importaciones esperando. El botón las toma todas, primero los equipos.
label-import = Importar
label-drop-import = Descartar
import-nothing-waits = No hay nada esperando. Cómo se hace: importar
import-dropped = Vale, no importé nada.
imported = Importado: { $what }.
    Si no era eso, escribe: deshacer importación
import-none-to-undo = No hay ninguna importación que deshacer.
import-undone = Importación deshecha.
import-undone-rows = Ya no cuenta: { $what }.
import-undone-settings = { $count ->
    [one] 1 ajuste está como antes.
   *[other] { $count } ajustes están como antes.
  }
import-undone-rigs = Quitados otra vez: { $rigs }.
import-rigs-stay = Se quedan, porque ya hay algo más anotado: { $rigs }.
file-not-read = Solo leo archivos de un dueño. Las lecturas se escriben: { $example }
file-too-large = No pude leer ese archivo. CSV de hasta 1 MB, por favor; o pega las filas debajo de la palabra importar.

changes-title = Quién cambió qué, lo último primero
changes-none = Aún no se ha cambiado nada.
changes-line = { $day }  { $name }: { $what }
did-join = entró
did-leave = se fue
did-ask-to-be-forgotten = pidió que se le olvidara
did-remove = sacó a { $other }
did-make-owner = hizo dueño a { $other }
did-make-lead = hizo encargado a { $other }
did-make-crew = hizo operario a { $other }
did-hand-over = traspasó la empresa a { $other }
did-cancel-invites = anuló las invitaciones abiertas
did-export = exportó todo
did-import = { $count ->
    [one] importó 1 fila
   *[other] importó { $count } filas
  }
did-undo-import = { $count ->
    [one] deshizo una importación de 1 fila
   *[other] deshizo una importación de { $count } filas
  }
did-delete-old = { $count ->
    [one] se borró 1 fila, demasiado vieja para guardarla
   *[other] se borraron { $count } filas, demasiado viejas para guardarlas
  }
by-itself = por sí solo
did-add-rig = agregó { $rig }
did-rename-rig = cambió de nombre { $rig }
did-remove-rig = quitó { $rig }
did-have-membrane = tiene membrana
did-close = cerró la empresa
did-keep = conservó la empresa
did-link = vinculó el chat de la cuadrilla
did-unlink = desvinculó el chat de la cuadrilla
did-set = fijó "{ $setting }"
did-take-back = quitó "{ $setting }"
did-withdraw = anuló { $rig }, { $echo }
