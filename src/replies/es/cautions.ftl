# Precauciones: las de siempre, cortas, cada una una vez por persona. Primero van las normas locales y el profesional autorizado.

caution-height = Lee y escribe con los pies en lugar seguro, nunca desde una escalera ni un borde.
caution-pressure = Antes de abrir un portafiltros: cierra el agua y quita la presión.
caution-chemicals = Una membrana nueva puede venir con conservante: guantes y gafas, sigue la etiqueta, y su primera agua al desagüe.
caution-preservative = Conservante: guantes y gafas, sigue su etiqueta, no mezcles nunca.
caution-plumbing = Adónde puede ir el agua de desecho, y la protección contra retorno: norma local, fontanero o plomero autorizado.
caution-frost = La helada destruye membranas y revienta portafiltros: guarda el equipo al abrigo o vacíalo como diga su fabricante.
caution-not-drinking = El agua purificada no es para beber.
