# Tuesday 2 March 2027, the first evening: the carrier is at the door, Fern weighs and Comet writes. Read by scripts/demo.
at "2027-03-02 18:44" receive "$build" "box 1" --mass 73150 --by Fern
at "2027-03-02 18:46" receive "$build" "box 2" --mass 22400 --by Fern
at "2027-03-02 18:47" receive "$build" "box 3" --mass 21300 --damaged "corner pushed in, film torn behind it" --by Fern
at "2027-03-02 18:49" receive "$build" "box 4" --mass 14600 --by Fern
at "2027-03-02 18:50" receive "$build" "box 5" --mass 17150 --by Fern
at "2027-03-02 18:52" receive "$build" "box 6" --mass 17200 --by Fern
at "2027-03-02 18:53" receive "$build" "box 7" --mass 9000 --by Fern
at "2027-03-02 18:56" receive "$build" "box 8" --mass 24700 --by Fern
