#pragma once
// A mug of hot water that cools on a table, measured by Stan Wagon: CoolingWater in the data of Pruim, Foundations and Applications of
// Statistics, 2nd edition (github.com/rpruim/fastR2, data-raw/CoolingWater.csv; read there, every second row left out where they stand
// close). The file names no units; seconds and degrees F are the only ones that fit water in a mug.
#include <vector>

namespace peelbook::calc::testing {

struct MugRow {
    double second = 0, fahrenheit = 0;
};
// clang-format off
inline const std::vector<MugRow> mug_of_water = {
    {0, 210}, {25, 204}, {34, 200}, {42, 198}, {54, 196}, {63, 194}, {80, 192}, {89, 190}, {103, 188}, {115, 186}, {131, 184},
    {145, 182}, {158, 180}, {175, 178}, {195, 176}, {213, 174}, {225, 172}, {250, 170}, {274, 168}, {298, 166}, {315, 164}, {335, 162},
    {353, 160}, {387, 158}, {411, 156}, {440, 154}, {475, 152}, {520, 150}, {550, 148}, {600, 144}, {640, 143}, {690, 140}, {740, 138},
    {790, 136}, {830, 134}, {880, 132.5}, {930, 131}, {980, 129}, {1030, 127.5}, {1080, 126}, {1140, 124}, {1190, 122}, {1240, 121},
    {1300, 120}, {1356, 118}, {1418, 116}, {1725, 111}, {1825, 109}, {1890, 108}, {1955, 107}, {2022, 106}, {2160, 104}, {2320, 102},
    {2473, 100}, {2613, 99}
};
// clang-format on

}  // namespace peelbook::calc::testing
