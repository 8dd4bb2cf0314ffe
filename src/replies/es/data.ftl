# Los datos del dueño: exportar, importar, quién cambió qué, cerrar.

in-private = Eso es para nuestro chat privado. Escríbelo allí.

close-sure = Para cerrar { $outfit } del todo, escribe su nombre: cerrar empresa { $outfit }
    Desde entonces no se apunta nada, y una semana después se borra todo. Arriba tienes una última copia.
closing-to-owner = { $outfit } está cerrada: no se apunta nada, y el { $day } se borra todo. Para evitarlo: conservar empresa
closing-to-crew = { $outfit } la ha cerrado su dueño. No se apunta nada, y el { $day } se borra todo.
outfit-kept = { $outfit } sigue. Las lecturas vuelven a contar.
not-closing = { $outfit } no se está cerrando. Todo sigue.

exported = Arriba está todo lo que guardo. Lecturas: { $readings }, trabajos: { $services }, equipos: { $rigs }.
    El libro lo tiene todo, y una última hoja que explica cada columna. Los otros archivos se pueden volver a leer: importar
key-title = clave
key-sheet = hoja
key-column = columna
key-meaning = significado
key-rig = El nombre del equipo. Fuera de la flota: con "removed" detrás.
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
key-by = Quién lo dijo: nombre de pila.
key-withdrawn = Cuándo se anuló. Esa fila ya no cuenta ni se vuelve a leer.
key-what = membrane (membrana), resin (resina), repack (compactada), prefilter (prefiltro), flush (lavado), oring (junta), preserved (en conservante), o same-membrane: alguien dijo que no se cambió.
key-minutes = Cuánto duró, en minutos.
key-price = Lo que costó, en la unidad menor de la moneda de la empresa, como céntimos.
key-kind = ro: con membrana. di: solo resina.
key-flush = hand: se lava a mano. itself: se lava solo.
key-added = Cuándo entró en la flota.
key-removed = Cuándo salió de la flota.
key-setting-rig = El equipo, si el ajuste es solo de uno.
key-setting = Qué ajuste.
key-value = Su valor, tal como se guarda.
key-since = Desde cuándo.
key-name = Nombre de pila.
key-role = owner (dueño), lead (encargado) o crew (operario).

import-how = Mándame una hoja como archivo CSV, o pega sus filas debajo de la palabra importar:
    importar
    equipo,fecha,red,ósmosis
    heron,2026-03-02 07:40,180,12
    Trabajos: equipo,fecha,trabajo. Verás lo que entraría antes de que entre.
import-no-headings = No distingo las columnas. La primera línea tiene que nombrarlas, así:
    equipo,fecha,red,ósmosis
    o para trabajos: equipo,fecha,trabajo
import-too-many = Son más de { $most } filas. Mándalas por partes.
import-dates = ¿{ $date } lleva primero el día o primero el mes?
    Los botones, o escribe: primero el día - primero el mes
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
import-span = { $what }; de: { $from }, a: { $until }
import-new-rigs = No están aún en la flota y se agregarían: { $rigs }
import-known = No entran, ya estaban: { $count }
import-withdrawn = No entran, anuladas: { $count }
import-ahead = No entran, del futuro: { $count }
import-misnamed = No entran, nombre no válido para un equipo: { $count }
import-left-out = Columnas que no conozco: { $columns }
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
bad-garbled = ilegible
import-adds-nothing = No hay nada nuevo que importar.
import-sure = ¿Lo importo? El botón, o escribe: importar ya - descartar importación
import-several = Ahora esperan { $count } hojas. Importar las toma todas, primero los equipos.
label-import = Importar
label-drop-import = Descartar
import-nothing-waits = No hay nada esperando. Cómo se hace: importar
import-dropped = Descartado. No se importó nada.
imported = Importado. Lecturas: { $readings }, trabajos: { $services }, equipos nuevos: { $rigs }.
    Si no era eso, escribe: deshacer importación
import-none-to-undo = No hay ninguna importación que deshacer.
import-undone = Importación deshecha. Ya no cuentan: lecturas { $readings }, trabajos { $services }.
    Los equipos nuevos se quedan. Para quitar uno: quitar equipo NOMBRE
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
did-import = importó { $about } filas
did-undo-import = deshizo una importación de { $about } filas
did-close = cerró la empresa
did-keep = conservó la empresa
did-link = vinculó el chat de la cuadrilla
did-unlink = desvinculó el chat de la cuadrilla
did-set = puso { $name } en { $value }
did-reset = devolvió { $name } a lo habitual
did-withdraw = anuló { $rig }, { $echo }
