# El menú de comandos, una línea cada uno: lo que vuelve al tocarlo.

menu-fleet = Todos los equipos de un vistazo
menu-history = Las últimas lecturas de un equipo
menu-undo = Anular lo último que mandaste
menu-help = Cómo mandar una lectura
menu-people = Quién está en la empresa
menu-invite = Un enlace para alguien nuevo
menu-picture = La flota en una imagen
menu-digest = Los trabajos de la semana
menu-spreadsheet = La semana como hoja de cálculo
menu-settings = Precios, horas y otros ajustes
