"""The command line of areafit: reads files, calls the rules, renders what they found."""
