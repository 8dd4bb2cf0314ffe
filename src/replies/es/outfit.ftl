# La empresa.

outfit-unnamed = Mi empresa
welcome-crew = Estás en { $outfit } como { $role }.
    Manda un equipo y dos lecturas, primero la red: { $example }
joined = { $name } entró como { $role }.
already-in = Ya estás en { $outfit }. Para cambiar de empresa, escribe primero: salir
bad-link = Ese enlace ya se usó o caducó. Pide otro.
stranger = Este bot guarda lecturas del agua para cuadrillas que limpian ventanas. Para entrar en una, abre el enlace de invitación de su dueño.
stranger-in-group = Aún no te conozco, así que no anoté nada. Abre el enlace de invitación de tu dueño o encargado, y mándalo otra vez.
invite-start-text = O escriben al bot: { $text }
rig-added = { $rig } está en la flota. Manda sus lecturas: { $example }
rigs-added = En la flota: { $rigs }. Manda lecturas: { $example }
rig-back = { $rig } vuelve a la flota, con todo lo que se guardó de él.
rig-exists = { $rig } ya está en la flota.
rig-name-bad = El nombre de un equipo tiene de 1 a 30 letras o cifras, y no es solo un número.
rig-removed = { $rig } ya no está en la flota. Sus lecturas se guardan.
rig-unknown = No hay ningún equipo "{ $name }". En la flota: { $rigs }.
rig-di-only = { $rig } no tiene membrana: sus lecturas son red y vidrio.
rig-has-membrane = { $rig } tiene membrana: sus lecturas son red y ósmosis.
rig-flushes-itself = { $rig } se lava solo: se acabaron los avisos de lavado.
rig-flushed-by-hand = { $rig } se lava a mano: recibirá un aviso al final del día.
own-rig = { $rig } es tu equipo. Ya bastan dos números: 180 12
outfit-named = La empresa se llama { $name }.
name-bad = El nombre de una empresa tiene de 1 a 60 caracteres.
zone-set = La hora local es la de { $zone }: allí son las { $time }.
zone-unknown = No hay ninguna zona "{ $name }". Así: zona Madrid
zone-near = No hay ninguna zona "{ $name }". ¿Será { $near }?
day-ends-set = La jornada acaba a las { $time }. A esa hora pregunto por los equipos que trabajaron y no se lavaron.
day-ends-bad = Así: fin del día 17:00
people-title = { $outfit }:
people-line = { $name }, { $role }
left = Has salido de { $outfit }. Tus lecturas se quedan.
last-owner = No hay más dueño que tú. La empresa no puede quedarse sin dueño.
    Antes haz dueño a otro (hacer dueño a NOMBRE) o cierra la empresa (cerrar empresa).
may-not = Eso solo lo puede hacer { $who }.
who-owner = un dueño
who-leads = un dueño o encargado
role-owner = dueño
role-lead = encargado
role-crew = operario
