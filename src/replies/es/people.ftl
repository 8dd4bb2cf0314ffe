# Personas: invitaciones, papeles, el chat de la cuadrilla, de quién es cada equipo.

invite-one = Mándalo a la persona para quien es. Entra como { $role } y vale { $span }:
    { $link }
invite-several = Compártelo con tu gente. Deja entrar a { $uses } como { $role } y vale { $span }:
    { $link }
invite-how = Una invitación puede decir como qué, cuánto vale y para cuántos: invitar encargado - invitar 2 días - invitar 5 personas - invitar una vez
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

person-removed = { $name } ya no está. Sus lecturas se quedan.
    Las invitaciones abiertas ya no valen. Para otra: invitar
you-were-removed = Ya no estás en { $outfit }. Tus lecturas se quedan.
remove-yourself = Para irte, escribe: salir
ask-remove-whom = ¿Quién? O escribe: quitar a { $example }
ask-whom = ¿Quién? O escribe el número detrás del nombre: { $example }
numbered-person = { $number } { $name }, { $role }
hand-over-sure = { $name } será dueño, y tú encargado. ¿Seguro?
    El botón, o escribe: { $text }
hand-over-text = traspasar a { $typed }, sí
hand-over-button = Traspasar
handed-over = { $name } ya es dueño. Tú eres encargado.
hand-over-to-yourself = Ya eres dueño.
role-already = { $name }: ya es { $role }.
role-set = { $name }: desde ahora, { $role }.
your-role = En { $outfit } eres desde ahora { $role }. Qué puedes escribir: ayuda
nobody-called = Aquí no hay nadie que se llame "{ $name }". Quién está: gente
nobody-but-a-rig = Nadie se llama así. Para el equipo, escribe: quitar equipo { $rig }

own-rig-today = Hoy vas con { $rig }. Hasta medianoche bastan dos números: 180 12
own-rig-none = Ya no tienes equipo propio. Di el equipo cada vez: { $example }

link-in-group = Agrégame al grupo de tu cuadrilla y escríbelo allí: vincular chat
chat-linked = Este es desde ahora el chat de { $outfit }. Aquí las lecturas cuentan como en privado: { $example }
    Los avisos que no llegan a nadie en privado vienen aquí. Para quitarlo: desvincular chat
chat-privacy = Pero aquí aún no puedo leer: en los grupos Telegram solo me enseña las órdenes y las respuestas a mis mensajes.
    Hazme administrador de este grupo. O que quien me aloja quite el modo de privacidad en @BotFather (/setprivacy), me saque del grupo y me vuelva a agregar.
chat-none = No hay ningún chat vinculado. En el grupo, escribe: vincular chat
chat-unlinked = Ya no hay chat vinculado. Las lecturas en grupos siguen contando.

label-new-membrane = Membrana nueva
label-same-membrane = Misma membrana
same-membrane-noted = { $rig }: la misma membrana. Anotado; no lo pregunto más.
resets-membrane = Su historial empieza de nuevo.
resets-membrane-from = { $day ->
    [ayer] Su historial empieza de nuevo desde ayer.
   *[other] Su historial empieza de nuevo desde el { $day }.
  }
resets-resin = Sus litros cuentan desde ahora.
resets-resin-from = { $day ->
    [ayer] Sus litros cuentan desde ayer.
   *[other] Sus litros cuentan desde el { $day }.
  }

forget-sure = Olvidaré para siempre tu nombre, tu idioma y tu chat, y saldrás de la empresa. Tus lecturas se quedan, como de alguien. ¿Seguro?
    El botón, o escribe: olvídame, sí
forget-button = Olvídame
forget-last-owner = No hay más dueño que tú. Antes haz dueño a otro (hacer dueño a NOMBRE) o cierra la empresa (cerrar empresa).
forgotten = Olvidado. Ya no estás, y lo que leíste es de alguien. Gracias por ello.
