# Qué significan las palabras: los estados de una membrana, los términos del oficio.

term-good = Bien: la membrana hace su trabajo y no hay ningún límite cerca. Nada que hacer.
term-fading = Con desgaste: la membrana va perdiendo, como todas a lo largo de meses. Sigue, y no la pierdas de vista.
term-due = Por cambiar: la membrana deja pasar tanto que una nueva puede salir más barata que la resina que gasta. Toca echar cuentas, no es una urgencia.
term-spent = Agotada: por debajo de la última de tus líneas. Se acabó, salvo que algo fugue. Revisa mangueras y juntas, y cámbiala.
term-unproven = Aún es pronto: muy pocas lecturas para decirlo. Bastan tres, o una después de anotar la membrana nueva.
term-fault = Buscar una fuga: las lecturas saltaron más rápido que el desgaste. Busca una fuga - una manguera, una junta, un racor - antes de comprar nada.
term-doubtful = Leer otra vez: esta lectura queda lejos de la tendencia del equipo. Deja correr 5 minutos, enjuaga el vaso y lee otra vez.
term-rejection = Rechazo: la parte de los sólidos disueltos que la membrana retiene, (red - ósmosis) / red. Red 180, ósmosis 12: 93,3 %. Una membrana nueva da cerca del 95 % con agua de red.
term-salt-passage = Paso de sales: la parte de los sólidos disueltos que atraviesa la membrana, ósmosis / red. Red 180, ósmosis 12: 6,7 %. Con el rechazo suma 100 %.
term-permeate = Permeado: el agua que pasó la membrana, medida a la salida de la ósmosis, en la manguera que va a la resina.
term-concentrate = Desagüe, también concentrado: el agua que se lleva lo que la membrana retuvo. Adónde puede ir lo dice la norma local.
term-feed = Red: el agua que entra, la del grifo o la llave. Siempre el primer número.
term-ro = Ósmosis inversa (RO): la presión empuja el agua por una membrana que retiene los sólidos disueltos. Aquí es también la lectura a su salida, el segundo número.
term-di = DI, desionización: un lecho de resina que quita los últimos sólidos disueltos, detrás de la membrana.
term-glass = Vidrio: el agua que llega a la ventana, detrás de la resina. Debe dar 0; desde unas 10 ppm deja manchas. El tercer número.
term-ppm = ppm, partes por millón: miligramos de sólidos disueltos en un litro de agua.
term-tds = TDS, sólidos disueltos totales: todo lo que el agua lleva disuelto, en ppm. El medidor de mano lo estima por la conductividad.
term-flush = Enjuague: agua rápida al desagüe que arrastra lo que la membrana retuvo. Al final de la jornada, unos diez minutos.
term-prefilter = Los prefiltros van delante de la membrana: el de sedimentos retiene la suciedad; el de carbón, el cloro, que la destruiría.
term-membrane = Membrana: la pieza que retiene casi todo lo disuelto. Se gasta a lo largo de meses o años; se ve en el segundo número.
term-resin = Resina: bolitas que recogen los últimos sólidos disueltos hasta llenarse. Lo que una membrana gastada deja pasar, lo carga la resina.
term-standardised = Estandarizado: corregido a la misma temperatura y presión, para que una mañana fría no parezca desgaste.
term-rig = Equipo: una furgoneta, un remolque o un carro con sus filtros, su membrana y su resina.
term-outfit = Empresa: un negocio con su gente y sus equipos. Nadie más ve la tuya.
