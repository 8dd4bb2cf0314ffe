# Precauciones: las de siempre, cortas, cada una una vez por persona. Primero van las normas locales y el profesional autorizado.

caution-height = Lee y escribe con los pies en lugar seguro, nunca desde una escalera ni un borde.
caution-pressure = Antes de abrir un portafiltros: cierra el agua y quita la presión.
caution-chemicals = Una membrana nueva puede venir con conservante: guantes y gafas, sigue la etiqueta, y su primera agua al desagüe.
caution-preservative = Conservante: guantes y gafas, sigue su etiqueta, no mezcles nunca.
caution-plumbing = Adónde puede ir el agua de desecho, y la protección contra retorno: norma local, fontanero o plomero autorizado.
caution-frost = La helada destruye membranas y revienta portafiltros: guarda el equipo al abrigo o vacíalo como diga su fabricante.
caution-not-drinking = El agua purificada no es para beber.

danger-frozen = No lo arranques helado: una membrana o una carcasa congelada se raja. Deja que se deshiele con el agua cerrada y luego busca fugas.
danger-burst = Cierra el agua en el grifo, quita la presión y apártate. Si hay agua cerca de algo eléctrico, corta antes la corriente si puedes hacerlo en seco. La reparación, a quien tenga licencia.
danger-hurt = Para y atiende primero a la persona: primeros auxilios, y el número de emergencias local si es más que un rasguño.
danger-drink = No. El agua purificada no es agua potable.
