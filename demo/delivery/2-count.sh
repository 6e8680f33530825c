# The same evening: three pairs count, each from its sheet; Juniper, an adult, measures the batteries. Read by scripts/demo.
at "2027-03-02 19:58" enter "$build" demo/delivery/sheet-pair-1.txt
at "2027-03-02 20:03" enter "$build" demo/delivery/sheet-pair-2.txt
at "2027-03-02 20:04" count "$build" GM24-120-R 1 --by Pixel
at "2027-03-02 20:07" enter "$build" demo/delivery/sheet-pair-3.txt
at "2027-03-02 20:09" enter "$build" demo/delivery/sheet-box-8.txt
