# Ayuda y pistas.

help-crew = Manda un equipo y dos lecturas, primero la red: { $example }
    Con el vidrio como tercera: { $example3 }
    ¿Hiciste algo? heron lavado - heron resina nueva
    ¿Número mal? Edita tu mensaje o escribe: deshacer
    Consultar: flota - historial heron - heron?
    Cómo leer: deja correr unos minutos, enjuaga el vaso, primero la red, luego la manguera que va a la resina.
help-lead = Equipos: agregar equipo heron - quitar equipo heron - heron se lava solo - heron sin membrana
    Personas: invitar - invitar encargado - gente
help-owner = Empresa: nombre Escalera Azul - zona Madrid - fin del día 17:00
hint = Leo agua. Así: { $example }   Más: ayuda
voice = No puedo oír notas de voz. Escríbelo: { $example }
picture = No puedo leer fotos. Escríbelo: { $example }
trouble = Algo falló de mi lado y este mensaje no cuenta. Escríbelo otra vez, por favor.
press-closed = Esa pregunta ya está cerrada. Escríbelo.
press-not-yours = Ese botón es de otra persona.
