# Ayuda y pistas. La ayuda corta tiene cinco líneas como mucho; una página, doce. Lo que se
# puede escribir va detrás de los últimos dos puntos de una línea, entre " | " si son varias cosas: una prueba las escribe todas.

help-start = Manda un equipo y luego red, ósmosis y, si lo mides, vidrio: { $rig } 180 12 | { $rig } 180 12 0
help-no-rigs = Primero agrega tus equipos: agregar equipo heron
help-sent = ¿Te equivocaste en la última? Edita tu mensaje o escribe: deshacer
help-about = Sobre lo que probaste: ayuda { $topic }
help-question = Espero una respuesta: { $question }
    Para dejarlo, escribe: deshacer
help-everyday = Si hiciste algo: { $rig } lavado | { $rig } resina nueva
    Para consultar: ¿{ $rig }? | flota | historial { $rig }
help-more-crew = Más: ayuda lectura | ayuda preguntas | ayuda seguridad | ayuda temas
help-more-lead = Más: ayuda equipos | ayuda gente | ayuda seguridad | ayuda temas
help-more-owner = Más: ayuda ajustes | ayuda precios | ayuda seguridad | ayuda temas
help-no-page = De eso no tengo ayuda.

# Lo que se escribe detrás de "ayuda" para cada página.
topic-reading = lectura
topic-correct = corregir
topic-flush = lavado
topic-resin = resina
topic-membrane = membrana
topic-prefilters = prefiltros
topic-questions = preguntas
topic-pictures = imágenes
topic-rigs = equipos
topic-parts = piezas
topic-people = gente
topic-settings = ajustes
topic-prices = precios
topic-hours = horas
topic-units = unidades
topic-digest = resumen
topic-sheets = hojas
topic-groups = grupos
topic-words = palabras
topic-safety = seguridad
topic-data = datos
topic-topics = temas

page-reading = Tomar una lectura, con los dos pies en suelo seguro:
    1. Deja correr el agua de 3 a 5 minutos.
    2. Enjuaga el vaso con el agua que vas a medir. El mismo medidor para todo.
    3. Mide la red, luego la manguera que va a la resina (ósmosis), luego el vidrio.
    4. Mándalo en ese orden: { $rig } 180 12 0
    Bastan red y ósmosis: { $rig } 180 12
    En cualquier orden, con nombres: { $rig } ósmosis 12 red 180
    ¿Agua fría o poca presión? Añádelo: { $rig } 180 12 8C 50psi
    Varios equipos de una vez: { $rig } 180 12, { $other } 210 20
page-correct = ¿Te equivocaste? Edita tu mensaje y lo leo otra vez. O escribe:
    la ósmosis correcta: *14
    las dos otra vez: { $rig } 180 14
    el equipo correcto: era { $rig }
    anularlo: deshacer
    Vale para lo que mandaste en las últimas 12 horas. Lo anulado queda guardado, pero ya no cuenta.
page-flush = El enjuague arrastra lo que la membrana retuvo, y así dura más. Al final de la jornada abre la llave de enjuague diez minutos y escribe: { $rig } lavado
    Un encargado o dueño, por todos los que trabajaron hoy: todos lavados
    Pregunto por los equipos que trabajaron y están sin enjuagar. Me basta un "hecho".
    Para que pregunte más tarde: { $rig } en 30 minutos
    Si hoy no salió: { $rig } no se usó
    Un equipo que tira agua al desagüe todo el tiempo no necesita enjuague. Un dueño o encargado escribe: { $rig } se lava solo
page-resin = La resina recoge lo que la membrana deja pasar. El vidrio debe dar 0; desde unas 10 ppm el agua deja manchas, así que cambia la resina antes de la próxima ventana.
    Cuánto dura: ¿resina { $rig }? | imagen de la resina { $rig }
    Cierra el agua y quita la presión antes de abrir. Luego, si la cambiaste: { $rig } resina nueva
    Compactada otra vez: { $rig } resina compactada
    ¿Alta en el vidrio justo después de un cambio? El agua se cuela por la resina suelta; compáctala bien.
    Si los cambios vienen cada vez más seguidos, mira la membrana: ¿membrana { $rig }?
page-membrane = El rechazo es la parte de los sólidos disueltos que la membrana retiene. Red 180 y ósmosis 12 dan 93,3 %.
    Baja a lo largo de meses. Un salto de un día a otro es una manguera, una junta o un racor.
    Antes de abrir un portafiltros, cierra el agua y quita la presión.
    Su estado y su fecha: ¿membrana { $rig }?
    Cambiada: { $rig } membrana nueva
    Creo que es nueva, pero es la de siempre: { $rig } misma membrana
    Junta nueva: { $rig } junta nueva
    En conservante mientras está parado: { $rig } conservada
    Qué significan los estados: ayuda palabras
page-prefilters = Los filtros de sedimentos y de carbón protegen la membrana; el cloro que pasa un carbón agotado la destruye. Sigue el plazo del fabricante, antes si el agua es sucia.
    Antes de abrir un portafiltros, cierra el agua y quita la presión.
    Cambiados: { $rig } prefiltros nuevos
    Cada cuánto los cambias: { $rig } prefiltros cada 90 días
page-questions = Pregúntame así.
    Cómo está un equipo, y por qué: ¿{ $rig }? | ¿por qué { $rig }?
    Sus últimas lecturas, y su tendencia: historial { $rig } | ¿tendencia { $rig }?
    Todos, y uno al lado de otro: flota | comparar equipos
    Cuándo necesita una nueva: ¿membrana { $rig }? | ¿resina { $rig }?
    Si está enjuagado: ¿está lavado { $rig }?
    Quién mandó algo, y quién no: quién anotó qué | ¿quién no ha anotado?
    Qué comprar: ¿qué hay que comprar?
    Qué se gastó: ¿cuánto costó { $rig } el año pasado?
    Qué cambiaría otro precio: ¿y si la resina cuesta 12?
    Qué significa una palabra: ¿qué significa por cambiar?
    En imagen: ayuda imágenes
page-pictures = Lo que puedo dibujarte y escribirte.
    La flota: imagen
    Las lecturas de un equipo y adónde van: imagen { $rig }
    Cuánto dura su resina: imagen de la resina { $rig }
    Cuándo sale más barata una membrana nueva: imagen del dinero { $rig }
    La semana como hoja de cálculo, para dueños y encargados: hoja de cálculo
    Lo que toca, para un calendario: calendario
page-rigs = Un dueño o encargado escribe:
    Agregar equipos: agregar equipo lince | agregar equipos lince, lobo
    Otro nombre: renombra { $rig } a tejón
    Quitar uno (sus lecturas se guardan): quitar equipo { $rig }
    Todo sobre uno, de una en una: configurar { $rig }
    Igual que otro: { $other } igual que { $rig }
    Otro nombre para él: { $rig } también se llama H
    De qué se compone: ayuda piezas
    Cualquiera escribe:
    El tuyo, para que basten dos números: mi equipo { $rig } | sin equipo
    Otro por hoy: hoy estoy en { $rig }
page-parts = De qué se compone un equipo. Un dueño o encargado escribe:
    Sin membrana, se miden red y vidrio: { $rig } sin membrana
    Tiene una membrana, o varias: { $rig } tiene membrana | { $rig } 2 membranas
    Sin resina, se miden red y ósmosis: { $rig } solo ósmosis
    Ósmosis y detrás resina: { $rig } ósmosis y resina
    Caudal nominal de la membrana: { $rig } nominal 150 gpd a 77 F 60 psi
    Resina que lleva: { $rig } resina 25 litros
    La botella de resina, de pie o tumbada: { $rig } de pie | { $rig } tumbado
    Agua en un día de trabajo: { $rig } 600 litros al día
    Con llave de enjuague, o sin ella: { $rig } se lava a mano | { $rig } se lava solo
    Lo que está fijado: { $rig } ajustes
page-people = Los operarios mandan lecturas. Los encargados, además, llevan equipos y gente. Los dueños, además, configuran la empresa.
    Un enlace para operarios, 7 días: invitar
    Para un encargado u otro dueño: invitar encargado | invitar dueño
    Para dos días y una persona: invitar 2 días, una vez
    Las abiertas, y cómo anularlas: invitaciones | cancelar invitaciones
    Quién está: gente
    Quitar a alguien: quitar a NOMBRE
    Papeles: hacer encargado a NOMBRE | hacer dueño a NOMBRE | hacer operario a NOMBRE
    Traspasar la empresa: traspasar a NOMBRE
    Irte tú: salir
page-settings = El dueño escribe:
    Pregunto de una en una, y sigo donde quedó: configurar
    Nombre y zona: nombre Escalera Azul | zona Madrid
    Dónde trabajas; fija unidades, moneda y temporadas: país ES
    Límites de con desgaste, por cambiar, agotada: línea de desgaste 90 | línea de aviso 85 | línea de cambio 80
    Desde cuánto mancha tu vidrio: línea de manchas 5
    Todo lo que está fijado: ajustes
    Volver al valor por defecto: línea de aviso normal
    Más: ayuda precios | ayuda horas | ayuda unidades | ayuda piezas
    Tu propio idioma, para cualquiera: language English | idioma automático
page-prices = El dueño escribe:
    Con qué pagas: moneda EUR
    La resina, por litro o por saco: precio resina 9 | 25 litros de resina cuestan 180
    Una membrana, un cambio de prefiltros: precio membrana 180 | precio prefiltros 25
    Mano de obra de una membrana nueva, de resina nueva: mano de obra 40 | mano de obra resina 15
    Para un solo equipo: { $rig } precio resina 12
    Luego pregunta.
    Cuándo compensa una membrana nueva: ¿membrana { $rig }?
    Qué traerá el próximo año: el año que viene | archivo del año
    Qué cambiaría otro precio: ¿y si la resina cuesta 12? | ¿y si una membrana cuesta 250?
    Qué se gastó: ¿cuánto costó { $rig } el año pasado?
page-hours = Cuándo te escribo yo. El dueño escribe:
    Fin de la jornada, cuando pregunto por el enjuague: fin del día 17:00 | el sábado acaba a las 13:00
    Los días que trabajas: días de trabajo lun-sáb
    Temporada alta: temporada alta junio-agosto 150 %
    El resumen del lunes: resumen lunes 7:00 | resumen no | resumen sí
    Preguntar por el enjuague: recordatorios no | recordatorios sí
    Lo que toca entretanto: avisos no | avisos sí
    Días libres: { $rig } en el taller hasta el viernes | cerramos hasta el 4 de enero
    La noche, en que callo: silencio 20:00-7:00 | silencio no
    Para un solo equipo: { $rig } el día acaba a las 15:00 | { $rig } recordatorios no
page-units = Los números solos son ppm (lo mismo que mg/L). Un medidor en microsiemens: { $rig } 360us 24us
    Decimales con coma o punto: { $rig } 180 12,5 | { $rig } 180 12.5
    Añadir temperatura y presión: { $rig } 180 12 8C 3,5bar | { $rig } 180 12 46F 50psi
    El dueño dice qué vale sin unidad:
    Los medidores: medidor ppm | medidor uS 0,5
    Los grados: grados C | grados F
    En qué te respondo: presión psi | presión bar | volumen litros | volumen galones
page-digest = El lunes por la mañana el dueño recibe cómo va cada equipo: qué comprar, qué arreglar y quién no anota.
    En cualquier momento: resumen | resumen más
    Como archivos: hoja de cálculo | calendario
    Entretanto: flota | ¿qué hay que comprar? | ¿quién no ha anotado?
    Que pregunte más tarde por algo que toca, o que no pregunte: { $rig } membrana en una semana | { $rig } membrana ahora no
    A otra hora, o ninguno: ayuda horas
page-sheets = Archivos que entran y salen. El dueño escribe:
    Todo como archivos: exportar
    Lecturas, trabajos y equipos de una hoja tuya: importar
    Luego, visto lo que trae: importar ya | descartar importación
    En fechas como 3/4/2026, qué va primero: primero el día | primero el mes
    Deshacer la última: deshacer importación
    Quién cambió qué: cambios
    Borrarlo todo; durante una semana puedes echarte atrás: cerrar empresa | conservar empresa
page-groups = En un chat de grupo leo lecturas y callo en todo lo demás.
    Si allí no contesto, la plataforma esconde a los bots los mensajes normales ("modo de privacidad"). Quien creó el bot lo desactiva y me agrega otra vez, o el grupo me hace administrador.
    Hasta entonces responde a un mensaje mío, o empieza con barra: /flota
    Lo que pregunto allí es para quien escribió.
    Un dueño o encargado lo hace el chat de la cuadrilla, o deja de serlo: vincular chat | desvincular chat
page-words = bien = todo en orden
    con desgaste = va perdiendo, sigue
    por cambiar = compara con una nueva
    agotada = se acabó
    aún es pronto = aún hay pocas lecturas
    buscar una fuga = dio un salto, y el desgaste no salta
    red = lo que entra
    ósmosis = tras la membrana
    vidrio = tras la resina
    Una palabra entera: ¿qué significa por cambiar?
page-safety = Mide y escribe con los dos pies en suelo seguro, nunca desde una escalera ni cerca de un borde.
    Cierra el agua y quita la presión antes de abrir un portafiltros.
    Ponte guantes y gafas con el conservante y los productos de limpieza. No los mezcles nunca, sigue la etiqueta.
    El agua purificada no es agua potable.
    El hielo destruye membranas y revienta portafiltros. Una membrana seca también se pierde.
    Consulta la norma local antes de verter el agua de desecho o de conectarte a un grifo (retorno). La fontanería, para un profesional autorizado.
    Las cifras aconsejan; decides tú.
page-data = Guardo las lecturas, lo que se hizo a los equipos y los ajustes de la empresa. De ti: el número de la plataforma, tu nombre de pila y tu idioma, nada más.
    Ninguna otra empresa ve la tuya. Lo anulado queda guardado, marcado.
    Borrar lo que sé de ti: olvídame
    Para el dueño. Llevárselo todo, y traerlo: exportar | importar
    Ver quién cambió qué: cambios
    Que se borre lo viejo, o nada: conservar 5 años | conservar todo
    Borrarlo todo: cerrar empresa
page-topics = Escribe ayuda y una de estas, o pregunta, así: ayuda lavado | ayuda ¿por qué lavar?
    Lecturas: lectura, corregir, unidades, grupos.
    Agua: lavado, resina, membrana, prefiltros, seguridad.
    Respuestas: preguntas, imágenes, resumen, palabras.
    Equipos y gente: equipos, piezas, gente.
    La empresa: ajustes, precios, horas, hojas, datos.

# Lo mal escrito recibe el ejemplo correcto más cercano. Una pista corta, no un sermón.
hint = Solo entiendo lecturas de agua. Así: { $rig } 180 12   Más: ayuda
hint-number = Una lectura son dos números, primero la red: { $rig } 180 12
hint-rig = No lo entendí. ¿Qué quieres decir de { $name }? Una lectura: { $rig } 180 12   Cómo está: ¿{ $rig }?
hint-flush = Cuando esté hecho, escribe: { $rig } lavado
hint-resin = Cuando esté hecho, escribe: { $rig } resina nueva   Más: ayuda resina
hint-membrane = Cuando esté cambiada, escribe: { $rig } membrana nueva   Cómo está: ¿membrana { $rig }?
hint-prefilters = Cuando esté hecho, escribe: { $rig } prefiltros nuevos
hint-like = Así: { $example }
hint-now = Ahora: { $example }. Para cambiarlo, escríbelo con otro valor.

# Ejemplos para órdenes a medias.
try-add-rigs = agregar equipo lince
try-remove-rig = quitar equipo { $rig }
try-own-rig = mi equipo { $rig }
try-today = hoy estoy en { $rig }
try-name = nombre Escalera Azul
try-zone = zona Madrid
try-roles = hacer encargado a NOMBRE | hacer dueño a NOMBRE | hacer operario a NOMBRE
try-hand-over = traspasar a NOMBRE
try-remove-person = quitar a NOMBRE
try-picture = imagen | imagen { $rig }
try-resin-picture = imagen de la resina { $rig }
try-money-picture = imagen del dinero { $rig }
try-same-as = { $rig } igual que { $other }
try-parts = { $rig } sin membrana | { $rig } solo ósmosis | { $rig } ósmosis y resina
try-link-chat = vincular chat
try-invites = invitaciones | cancelar invitaciones
try-export = exportar
try-compare = comparar equipos | comparar { $rig } y { $other }
try-why = ¿por qué { $rig }?
try-later = { $rig } en 30 minutos
try-words = ¿qué significa por cambiar? | ayuda palabras

voice = No puedo oír notas de voz. Escríbelo: { $example }
picture = No puedo leer fotos. Escríbelo: { $example }
trouble = Algo falló de mi lado y este mensaje no cuenta. Escríbelo otra vez, por favor.
press-closed = Esa pregunta ya está cerrada. Escríbelo.
press-not-yours = Ese botón es de otra persona.
press-outdated = Ese botón es de antes de una actualización. Escríbelo, o vuelve a preguntar.

# Idiomas.
language-set = A partir de ahora te respondo en español.
language-now = Te respondo en español. In English: language English
language-unknown = Respondo en inglés y en español. Así: idioma inglés | idioma español
