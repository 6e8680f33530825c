# Tuesday 2 March 2027, the first evening: the boxes come over the scales; box 1 stays on its pallet. Read by scripts/demo.
at "2027-03-02 19:04" receive "$build" "box 1" --by Fern
at "2027-03-02 19:06" receive "$build" "box 2" --mass 22400 --by Fern
at "2027-03-02 19:07" receive "$build" "box 3" --mass 21300 --damaged "corner pushed in, film torn behind it" --by Fern
at "2027-03-02 19:09" receive "$build" "box 4" --mass 14600 --by Fern
at "2027-03-02 19:10" receive "$build" "box 5" --mass 17150 --by Fern
at "2027-03-02 19:12" receive "$build" "box 6" --mass 17200 --by Fern
at "2027-03-02 19:13" receive "$build" "box 7" --mass 9000 --by Fern
at "2027-03-02 19:16" receive "$build" "box 8" --mass 24700 --by Fern
