### References: the known resistors and meters of a bench.

said-reference-kind = { $kind ->
    [resistor] resistor
    [decade-box] decade box
    [voltmeter] voltmeter
    [high-voltage-probe] high-voltage probe
   *[current-meter] current meter
}
said-reference-certificate = { $certificate ->
    [none] No certificate number
   *[other] Certificate { $certificate }
}
said-reference-input = Loads the tester with { $input }
said-reference-value = { $nominal }: { $says }
said-reference-expanded = { $value }, U = { $within } (k = { $k })
said-reference-tolerance = { $value } ± { $within }, taken as rectangular
said-reference-no-uncertainty = { $value }, no uncertainty stated: nothing can be decided by it
said-reference-drift = changed at most { $percent } since
said-reference-per-volt = { $ppm } ppm/V
said-reference-per-kelvin = { $ppm } ppm/K
said-reference-rated = up to { $volts }
said-reference-step = one step { $step }
said-reference-loaded = { $nominal } with the { $input } of { $meter } across it is { $known }
answer-reference-title = { $name }, { $kind }, serial number { $serial }
answer-reference-in-date = Certificate in date until { $until }
answer-reference-lapsed = Certificate lapsed on { $until }: what is decided by it is conditional at most
answer-reference-no-last-day = No last day on its certificate: it never counts as in date
