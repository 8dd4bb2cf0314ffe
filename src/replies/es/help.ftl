# Ayuda y pistas. La ayuda corta tiene cinco líneas como mucho; una página, doce.

help-start = Manda un equipo y dos lecturas, primero la red: { $rig } 180 12
help-no-rigs = Primero los equipos: agregar equipo heron
help-sent = ¿Mal la última? Edita tu mensaje o escribe: deshacer
help-about = Sobre lo que probaste: ayuda { $topic }
help-question = Espero una respuesta: { $question }
    Para dejarlo, escribe: deshacer
help-everyday = Con el vidrio como tercera: { $rig } 180 12 0
    ¿Hiciste algo? { $rig } lavado - { $rig } resina nueva
    Consultar: { $rig }? - flota - historial { $rig }
help-more-crew = Más: ayuda lectura - ayuda lavado - ayuda palabras
help-more-lead = Más: ayuda equipos - ayuda gente - ayuda lectura - ayuda palabras
help-more-owner = Más: ayuda ajustes - ayuda equipos - ayuda gente - ayuda lectura
help-no-page = De eso no hay ayuda. La hay de: lectura, corregir, lavado, resina, membrana, prefiltros, equipos, gente, ajustes, unidades, resumen, grupos, palabras, seguridad, datos.
    Así: ayuda lavado

# Lo que se escribe detrás de "ayuda" para cada página.
topic-reading = lectura
topic-correct = corregir
topic-flush = lavado
topic-resin = resina
topic-membrane = membrana
topic-prefilters = prefiltros
topic-rigs = equipos
topic-people = gente
topic-settings = ajustes
topic-units = unidades
topic-digest = resumen
topic-groups = grupos
topic-words = palabras
topic-safety = seguridad
topic-data = datos

page-reading = Tomar una lectura, con los dos pies en el suelo:
    1. Deja correr el equipo de 3 a 5 minutos.
    2. Enjuaga el vaso con el agua que vas a medir. El mismo medidor para todo.
    3. Mide la red, luego la manguera que va a la resina (ósmosis), luego el vidrio.
    4. Mándalo en ese orden: { $rig } 180 12 0
    Bastan red y ósmosis: { $rig } 180 12
    En cualquier orden, con nombres: { $rig } ósmosis 12 red 180
    ¿Agua fría o poca presión? Añádelo: { $rig } 180 12 8C 50psi
page-correct = ¿Un error? Edita tu mensaje y lo leo otra vez. O escribe:
    la ósmosis correcta: *14
    las dos otra vez: { $rig } 180 14
    el equipo correcto: era { $rig }
    anularlo: deshacer
    Vale para lo que mandaste en las últimas 12 horas. Lo anulado queda en el registro, pero ya no cuenta.
page-flush = El lavado arrastra lo que la membrana retuvo. Al final del día abre la llave de lavado, diez minutos, y escribe: { $rig } lavado
    Pregunto por los equipos que trabajaron y no se lavaron. Me basta un "hecho".
    Hoy no salió: { $rig } no se usó
    Un equipo que tira agua al desagüe todo el tiempo no necesita lavado. Un dueño o encargado escribe: { $rig } se lava solo
page-resin = La resina recoge lo que la membrana deja pasar. Desde unas 10 ppm en el vidrio el agua deja manchas: cámbiala antes de la próxima ventana.
    Cambiada: { $rig } resina nueva
    Compactada otra vez: { $rig } resina compactada
    ¿Alta en el vidrio justo después de un cambio? El agua se cuela por la resina floja: compáctala bien.
    Si los cambios vienen cada vez más seguidos, mira la membrana: ¿membrana { $rig }?
page-membrane = El rechazo es la parte de los sólidos disueltos que la membrana retiene: red 180, ósmosis 12 son 93,3 %.
    Baja a lo largo de meses. Un salto de un día a otro es una manguera, una junta o un racor.
    Su estado y su fecha: ¿membrana { $rig }?
    Cambiada: { $rig } membrana nueva
    Junta nueva: { $rig } junta nueva
    Antes de abrir un portafiltros: cierra el agua y quita la presión.
    Los estados: ayuda palabras
page-prefilters = Los filtros de sedimentos y de carbón protegen la membrana; el cloro que pasa un carbón agotado la destruye. Sigue el plazo del fabricante, antes si el agua es sucia.
    Cambiados: { $rig } prefiltros nuevos
    Antes de abrir un portafiltros: cierra el agua y quita la presión.
page-rigs = Un dueño o encargado escribe:
    agregar equipo heron - varios: agregar equipos heron, otter
    quitar equipo heron (sus lecturas se guardan)
    { $rig } sin membrana - se leen red y vidrio
    { $rig } tiene membrana - { $rig } solo ósmosis: sin resina
    { $rig } se lava solo - sin avisos
    { $rig } se lava a mano
    Todo sobre uno, de una en una: configurar { $rig } - otter igual que { $rig }
    El tuyo, para que basten dos números: mi equipo { $rig }
page-people = Los operarios mandan lecturas. Los encargados, además, llevan equipos y gente. Los dueños, además, ajustan la empresa.
    Un enlace para operarios, 7 días: invitar
    Para un encargado u otro dueño: invitar encargado - invitar dueño
    Dos días y para uno: invitar 2 días, una vez - las abiertas: invitaciones - cancelar invitaciones
    Quién está: gente - para sacar a alguien: quitar a NOMBRE
    Papeles: hacer encargado a NOMBRE - hacer dueño a NOMBRE - traspasar a NOMBRE
    Salir tú: salir
page-settings = El dueño escribe:
    configurar - pregunto de una en una, y sigo donde quedó
    nombre Escalera Azul
    zona Madrid
    ajustes
    fin del día 17:00
    Cada cual para sí: language English - mi equipo { $rig }
page-units = Los números solos son ppm (lo mismo que mg/L). Un medidor en microsiemens: { $rig } 360us 24us
    Los grados son los de la empresa, o di cuáles: 8C, 46F
    Presión: 50psi, 3,5bar, 345kpa
    Decimales con coma o punto: 0,5 o 0.5
page-digest = El lunes por la mañana el dueño recibe un mensaje sobre todos los equipos: qué comprar, qué arreglar, quién calla.
    Entretanto: flota - ¿qué hay que comprar? - ¿quién no ha apuntado?
page-groups = En un chat de grupo leo lecturas y callo en todo lo demás.
    Si allí no contesto: la plataforma esconde a los bots los mensajes corrientes ("modo de privacidad"). Quien creó el bot lo desactiva y me agrega otra vez, o el grupo me hace administrador.
    Hasta entonces empieza con barra, como /flota, o responde a un mensaje mío.
    Lo que pregunto allí es para quien escribió.
    Un dueño o encargado lo hace el chat de la cuadrilla: vincular chat
page-words = bien: todo en orden. con desgaste: va perdiendo, sigue. por cambiar: compara con una nueva. agotada: se acabó. por confirmar: pocas lecturas. revisar primero: dio un salto, busca una fuga.
    red: lo que entra. ósmosis: tras la membrana. vidrio: tras la resina.
    Una palabra entera: ¿qué significa por cambiar?
page-safety = Lee y escribe con los pies en lugar seguro, nunca desde una escalera ni un borde.
    Quita la presión antes de abrir un portafiltros.
    Conservante y productos de limpieza: guantes y gafas, nunca mezclar, sigue la etiqueta.
    El agua purificada no es para beber.
    La helada destruye membranas y revienta portafiltros.
    Adónde puede ir el agua de desecho, y la protección contra retorno: norma local, fontanero o plomero autorizado.
    Las cifras aconsejan; decides tú.
page-data = Se guardan las lecturas, lo que se hizo a los equipos y los ajustes de la empresa. De ti: el número de la plataforma, tu nombre de pila y tu idioma, nada más.
    Ninguna otra empresa ve la tuya. Lo anulado queda en el registro, marcado.
    Salir de todo para siempre: olvídame
    El dueño se lo lleva todo (exportar), lo trae (importar), ve quién cambió qué (cambios), y puede hacer que se borre lo viejo (conservar 5 años) o todo (cerrar empresa).

# Lo mal escrito recibe el ejemplo correcto más cercano. Una pista corta, no un sermón.
hint = Leo agua. Así: { $rig } 180 12   Más: ayuda
hint-number = Una lectura son dos números, primero la red: { $rig } 180 12
hint-rig = ¿Qué hay de { $name }? Una lectura: { $rig } 180 12   Cómo está: { $rig }?
hint-flush = Cuando esté hecho, escribe: { $rig } lavado
hint-resin = Cuando esté hecho, escribe: { $rig } resina nueva   Más: ayuda resina
hint-membrane = Cuando esté cambiada, escribe: { $rig } membrana nueva   Cómo está: ¿membrana { $rig }?
hint-prefilters = Cuando esté hecho, escribe: { $rig } prefiltros nuevos
voice = No puedo oír notas de voz. Escríbelo: { $example }
picture = No puedo leer fotos. Escríbelo: { $example }
trouble = Algo falló de mi lado y este mensaje no cuenta. Escríbelo otra vez, por favor.
press-closed = Esa pregunta ya está cerrada. Escríbelo.
press-not-yours = Ese botón es de otra persona.

# Idiomas.
language-set = A partir de ahora te respondo en español.
language-now = Te respondo en español. In English: language English
language-unknown = Respondo en inglés y en español. Así: idioma inglés - idioma español
