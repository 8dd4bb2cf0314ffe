# Personas: invitaciones, papeles, el chat de la cuadrilla, de quién es cada equipo.

invite-one = Mándaselo a esa persona. Entra como { $role } y vale { $span }:
    { $link }
invite-several = Compártelo con tu gente. Deja entrar a { $uses } como { $role } y vale { $span }:
    { $link }
invite-how = También puedes escribir: invitar encargado | invitar 2 días | invitar 5 personas | invitar una vez
span-days = { $count ->
    [one] 1 día
   *[other] { $count } días
  }
span-hours = { $count ->
    [one] 1 hora
   *[other] { $count } horas
  }
invites-title = Invitaciones abiertas:
invites-line = { $role }, { $uses ->
    [one] una persona más
   *[other] { $uses } personas más
  }, hasta { $day ->
    [hoy] hoy
   *[other] el { $day }
  }, de { $name }
invites-none = No hay invitaciones abiertas. Para hacer una: invitar
invites-cancel-hint = Para anularlas: cancelar invitaciones
invites-cancelled = { $count ->
    [0] No había ninguna invitación abierta.
    [one] La invitación abierta ya no vale.
   *[other] { $count } invitaciones abiertas ya no valen.
  }

person-removed = Quité a { $name }. Sus lecturas se quedan.
    Las invitaciones abiertas ya no valen. Para otra: invitar
you-were-removed = Ya no estás en { $outfit }. Tus lecturas se quedan.
remove-yourself = Para irte, escribe: salir
ask-remove-whom = ¿Quién? O escribe: quitar a { $example }
ask-whom = ¿Quién? O escribe el número detrás del nombre: { $example }
numbered-person = { $number } { $name }, { $role }
hand-over-sure = { $name } será dueño, y tú encargado. ¿Seguro?
    Toca el botón o escribe: { $text }
hand-over-text = traspasar a { $typed }, sí
hand-over-button = Traspasar
handed-over = { $name } ya es dueño. Tú eres encargado.
hand-over-to-yourself = Ya eres dueño.
role-already = { $name }: ya es { $role }.
role-set = { $name }: desde ahora, { $role }.
your-role = En { $outfit } eres desde ahora { $role }. Qué puedes escribir: ayuda
nobody-called = Aquí nadie se llama "{ $name }". Quién está: gente
nobody-but-a-rig = Nadie se llama así. Para el equipo, escribe: quitar equipo { $rig }

own-rig-today = Hoy vas con { $rig }. Hasta medianoche bastan dos números: 180 12
own-rig-none = Ya no tienes equipo propio. Pon el nombre del equipo cada vez: { $example }

link-in-group = Agrégame al grupo de tu cuadrilla y escríbelo allí: vincular chat
chat-taken = Este chat ya es de otro negocio. Su dueño puede liberarlo con: unlink chat
chat-linked = Este es desde ahora el chat de { $outfit }. Aquí las lecturas cuentan como en privado: { $example }
    Los recordatorios que no llegan a nadie en privado vienen aquí. Para quitarlo: desvincular chat
chat-privacy = Pero aquí aún no veo los mensajes normales: en los grupos Telegram solo me enseña los comandos y las respuestas a mis mensajes.
    Hazme administrador de este grupo. O pide a quien me aloja que quite el modo de privacidad en @BotFather (/setprivacy), me saque del grupo y me vuelva a agregar.
chat-none = No hay ningún chat vinculado. En el grupo, escribe: vincular chat
chat-unlinked = Ya no hay chat vinculado. Las lecturas en grupos siguen contando.

label-new-membrane = Membrana nueva
label-same-membrane = Misma membrana
same-membrane-noted = { $rig }: vale, la misma membrana. No vuelvo a preguntar.
resets-membrane = Cuento desde cero.
resets-membrane-from = { $day ->
    [ayer] Cuento desde cero a partir de ayer.
   *[other] Cuento desde cero a partir del { $day }.
  }
resets-resin = La cuenta de la resina empieza ahora.
resets-resin-from = { $day ->
    [ayer] La cuenta de la resina empieza ayer.
   *[other] La cuenta de la resina empieza el { $day }.
  }

forget-sure = Borraré para siempre tu nombre, tu idioma y tu chat, y saldrás de la empresa. Tus lecturas se quedan, sin tu nombre. ¿Seguro?
    Toca el botón o escribe: olvídame, sí
forget-button = Olvídame
forget-last-owner = No hay más dueño que tú. Antes haz dueño a otro (hacer dueño a NOMBRE) o cierra la empresa (cerrar empresa).
forgotten = Ya no guardo nada tuyo. Tus lecturas quedan sin nombre. Gracias.
