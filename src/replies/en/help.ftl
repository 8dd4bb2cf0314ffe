# Help and hints.

help-crew = Text a rig and two readings, tap first: { $example }
    With the glass as third: { $example3 }
    Done something? heron flushed - heron new resin
    Wrong number? Edit your message, or type: undo
    Look: fleet - history heron - heron?
    How to read: let it run a few minutes, rinse the cup, tap first, then the hose that feeds the resin.
help-lead = Rigs: add rig heron - remove rig heron - heron flushes itself - heron di only
    People: invite - invite lead - people
help-owner = Outfit: name Blue Ladder - zone Europe/Madrid - day ends 17:00
hint = I read water. Like this: { $example }   More: help
voice = I cannot listen to voice notes. Type it: { $example }
picture = I cannot read pictures. Type it: { $example }
trouble = Something went wrong on my side, and this message was not counted. Please type it again.
press-closed = That question is closed. Type it instead.
press-not-yours = That button is for somebody else.
