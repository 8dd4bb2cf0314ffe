# La configuración: las preguntas de la guía. La primera línea de cada una es la
# pregunta, y también se dice sola cuando entre medias llegó otra cosa.

setup-welcome = Esta empresa es tuya. Pregunto unas pocas cosas, de una en una, y todas pueden esperar: omitir, o parar.
setup-private = La configuración va por privado. Escríbeme en nuestro chat: configurar

setup-name = ¿Cómo se llama la empresa?
setup-country = ¿En qué país trabajas?
    De él salen unidades, moneda y hora. ¿No está? Escríbelo.
setup-units = Así queda: { $units }. ¿Algo distinto? Escríbelo, por ejemplo: medidor uS
setup-zone = ¿Qué hora es donde trabajas?
    Tócala, o escribe una ciudad.
setup-rigs = ¿Qué equipos tienes?
    Todos los nombres en un mensaje, así: garza, nutria. También vale pegar una lista.
setup-add-rig = Agregar { $rig }
setup-line-bad = No entendí "{ $line }": no agregué ningún equipo por esa línea.
setup-reading = Pruébalo cuando quieras: primero la red, luego la salida de ósmosis.
    Deja correr el agua unos minutos y enjuaga el vaso. La salida de ósmosis es la manguera que entra en la resina.
    Lo que falta por configurar son unos dos minutos.
setup-reading-known = ¿Seguimos con la configuración? Unos dos minutos.
setup-reading-short = ¿Seguimos con la configuración?
setup-reading-done = Eso es todo lo que manda una cuadrilla. ¿Seguimos con la configuración? Unos dos minutos.
setup-hours = ¿Es así? { $facts }
    O escribe lo que sea distinto, por ejemplo: lun-sáb, el día acaba a las 16:30
setup-working-days = ¿Qué días trabajas?
setup-day-ends = ¿A qué hora acaba la jornada?
    A esa hora se lo recuerdo a quien no haya enjuagado la membrana.
setup-digest = ¿Cuándo quieres el resumen semanal?
    O escribe: resumen no

setup-facts = ¿Es así { $rig }? { $facts }
    O escribe lo que sea distinto, por ejemplo: 2 membranas, se lava solo, tumbado. Sin membrana: solo resina
setup-kind = { $rig }: ¿con qué trabaja?
setup-membranes = { $rig }: ¿cuántas membranas?
setup-flush = { $rig }: ¿cómo se enjuaga la membrana?
setup-stands = { $rig }: ¿la botella de resina va de pie o tumbada?
    Tumbada, el agua pasa por encima de la resina suelta.
setup-resin = { $rig }: ¿cuánta resina lleva?
    Lo necesito para decir cuánto dura.
setup-rated = { $rig }: ¿qué caudal nominal tiene una membrana?
    Está en su etiqueta, por ejemplo: 150 gpd a 77 F 60 psi
setup-prefilters = { $rig }: ¿cada cuánto cambias los prefiltros?
setup-same = { $rigs }: igual que { $like }.
setup-rig-done = { $rig } está configurado. Para verlo: { $name } ajustes

setup-membrane-price = ¿Cuánto te cuesta una membrana nueva?
    Por ejemplo: 180. Lo necesito para decir cuándo compensa cambiarla.
setup-resin-price = ¿Cuánto te cuesta un litro de resina?
    Por ejemplo: 9. O por saco: 25 litros cuestan 225. Lo necesito para decir lo que cuesta esperar.
setup-resin-price-feet = ¿Cuánto te cuesta un pie cúbico de resina?
    Por ejemplo: 250. O con su unidad: 9 el litro. Lo necesito para decir lo que cuesta esperar.
setup-litres = ¿Cuánta agua hace un equipo en un día de trabajo, más o menos?
    Basta una cifra aproximada. Para un solo equipo: { $example }
setup-crew = ¿Invitas ya a tu gente?
    Abren un enlace y mandan un equipo con dos números.
setup-done = La empresa está configurada. Para verlo y cambiarlo todo: ajustes
    Un equipo, con prefiltros y caudal nominal: configurar { $rig }

setup-not-understood = No entendí "{ $text }".
setup-more-rigs = ¿Más equipos? Escribe: agregar equipos { $names }
setup-stopped = Bien, eso puede esperar. Las lecturas funcionan igual. Para seguir: configurar
setup-waits = El resto de la configuración espera. Para seguir: configurar

setup-skip = Omitir
setup-go-on = Seguir
setup-later = Más tarde
setup-fits = Así es
setup-one-by-one = Una por una
setup-same-as = Igual que { $rig }
setup-all-same = Todos iguales
setup-invite = Invitar
setup-di-only = solo resina
setup-by-hand = se lava a mano
setup-by-itself = se lava solo
setup-half-cubic-foot = 0,5 pies cúbicos
setup-cubic-foot = 1 pie cúbico

country-name = { $code ->
    [US] Estados Unidos
    [GB] Reino Unido
    [IE] Irlanda
    [CA] Canadá
    [AU] Australia
    [NZ] Nueva Zelanda
    [ZA] Sudáfrica
    [ES] España
    [MX] México
    [PT] Portugal
    [FR] Francia
    [DE] Alemania
    [AT] Austria
    [CH] Suiza
    [IT] Italia
    [NL] Países Bajos
    [BE] Bélgica
    [LU] Luxemburgo
    [PL] Polonia
    [CZ] Chequia
    [HU] Hungría
    [RO] Rumanía
    [SE] Suecia
    [NO] Noruega
    [DK] Dinamarca
    [FI] Finlandia
    [IS] Islandia
    [GR] Grecia
    [JP] Japón
    [SG] Singapur
    [BR] Brasil
    [AR] Argentina
    [CL] Chile
    [CO] Colombia
    [PE] Perú
    [UY] Uruguay
    [CR] Costa Rica
    [DO] República Dominicana
   *[other] { $code }
  }
