### The cautions that are read and confirmed once per job and person. Each stands on screen and on paper.

caution-title = Before testing
caution-dead = Test only dead, isolated circuits.
caution-sources = Isolate and lock every source: second feeds, generators, batteries and uninterruptible supplies, photovoltaics that are live by daylight, shared neutrals.
caution-proving = Prove dead with a proving unit before connecting. The tester's own lamp is no proof.
caution-photovoltaic = Test photovoltaic strings only by their own procedure.
caution-explosive = Do not test in explosive atmospheres.
caution-disconnect = Disconnect electronics, dimmers, drives, surge protectors, RCDs with electronics and emergency lighting.
caution-warn = Warn others, also at the far end of the cable. Nobody touches the conductors during the test.
caution-earth-lead = Earth lead first on, last off.
caution-discharge = Keep connected until discharged, and verify the discharge before touching. Long cables hold charge.
caution-reconnect = Reconnect N and links before energising.
caution-leads = Use leads to GS 38 or the local equal: finger guards, no more than { $tip } of exposed tip.
caution-decide = Local wiring rules and a licensed person decide. This software states limits and arithmetic, never whether a circuit may be energised.
