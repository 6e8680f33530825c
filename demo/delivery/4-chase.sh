# The maker answered on the telephone. Read by scripts/demo.
at "2027-03-04 09:20" promise "$build" D-919 9 2027-03-15 --by Fern
at "2027-03-04 09:21" promise "$build" D-952 9 2027-03-15 --by Fern
at "2027-03-04 09:25" promise "$build" D-302 1 2027-03-22 --by Fern
