# Precauciones: las de siempre, cortas, cada una una vez por persona. Primero van las normas locales y el profesional autorizado.

caution-height = Mide y escribe con los dos pies en suelo seguro, nunca desde una escalera ni cerca de un borde.
caution-pressure = Antes de abrir un portafiltros: cierra el agua y quita la presión.
caution-chemicals = Una membrana nueva puede venir con conservante. Ponte guantes y gafas, sigue la etiqueta y tira la primera agua.
caution-preservative = Conservante: ponte guantes y gafas, sigue la etiqueta y no lo mezcles nunca.
caution-plumbing = Consulta la norma local antes de verter el agua de desecho o de conectarte a un grifo (retorno). La fontanería, para un profesional autorizado.
caution-frost = El hielo destruye membranas y revienta portafiltros. Guarda el equipo al abrigo o vacíalo como diga su fabricante (una membrana seca también se pierde).
caution-not-drinking = El agua purificada no es agua potable.

danger-frozen = No lo arranques helado: una membrana o una carcasa congelada se raja. Deja que se deshiele con el agua cerrada y luego busca fugas. Si aguanta, deja correr el agua al desagüe y mándame una lectura.
danger-burst = Cierra el agua en el grifo, quita la presión y apártate. Si hay agua cerca de algo eléctrico, corta antes la corriente si puedes hacerlo en seco. La reparación, a quien tenga licencia; cuando aguante, deja correr el agua al desagüe y mándame una lectura.
# GHS statements P305+P351+P338 (UN, Globally Harmonized System, annex 3): rinse for several minutes, cautiously; 15 or
# more is common practice, no source.
danger-chemical = Enjuaga ya con mucha agua limpia, 15 minutos o más; los ojos abiertos bajo el agua, fuera la ropa mojada. Si son vapores, sal al aire libre. Luego el número local de emergencias o de toxicología, con la etiqueta a mano.
danger-electric = Apártate y no toques nada: corta antes la corriente, si puedes hacerlo en seco. Pértigas y escaleras, lejos de los cables. Tras una descarga, que te vea un médico. Antes de volver a usarlo, que lo revise un profesional autorizado.
danger-hurt = Para y atiende primero a la persona: primeros auxilios, y el número de emergencias local si es más que un rasguño.
danger-drink = No. El agua purificada no es agua potable.
