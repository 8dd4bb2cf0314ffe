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
rig-added = Agregué { $rig }. Manda lecturas así: { $example }
rigs-added = Agregué: { $rigs }. Manda lecturas así: { $example }
rig-back = { $rig } ha vuelto, con todo lo que guardé de él.
rig-exists = Ya tienes { $rig }.
rig-name-bad = El nombre de un equipo tiene de 1 a 30 letras o cifras, y no es solo un número.
rig-renamed = { $old } se llama { $rig } desde ahora. Conserva todas sus lecturas.
rig-removed = Quité { $rig }. Sus lecturas se guardan.
rig-unknown = No hay ningún equipo "{ $name }". Tus equipos: { $rigs }.
rig-di-only = { $rig } no tiene membrana: sus lecturas son red y vidrio.
rig-has-membrane = { $rig } tiene membrana: sus lecturas son red y ósmosis.
rig-flushes-itself = { $rig } se enjuaga solo: no hay más recordatorios.
rig-flushed-by-hand = { $rig } se enjuaga a mano: tendrá un recordatorio al final de la jornada.
own-rig = { $rig } es tu equipo. Ya bastan dos números: 180 12
outfit-named = La empresa se llama { $name }.
name-bad = El nombre de una empresa tiene de 1 a 60 caracteres.
zone-set = La hora local es la de { $zone }: allí son las { $time }.
zone-unknown = No hay ninguna zona "{ $name }". Así: zona Madrid
zone-near = No hay ninguna zona "{ $name }". ¿Será { $near }?
day-ends-set = La jornada acaba a las { $time }. A esa hora pregunto por los equipos que trabajaron y están sin enjuagar.
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
