# Before anybody telephones: the two rows that look swapped are counted again, on the ruler. Read by scripts/demo.
at "2027-03-02 20:13" count "$build" B1 2 27 --by Biscuit --note "six M6x25 lay among them and went over to bag B2"
at "2027-03-02 20:15" count "$build" B2 1 27 --by Biscuit
