#include "tests/bench/figure.h"

#include <algorithm>
#include <cstdio>

#include "fmt/format.h"

namespace rowproof::bench {
namespace {

// Three or four digits that mean something, whatever the size.
std::string Short(double value) {
  return value >= 100 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
}

}  // namespace

double Median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

double Microseconds(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - begin)
      .count();
}

Pair Interleaved(int runs, const std::function<void()>& work, const std::function<void()>& floor) {
  work();
  floor();
  std::vector<double> works;
  std::vector<double> floors;
  for (int run = 0; run < runs; ++run) {
    works.push_back(Microseconds(work));
    floors.push_back(Microseconds(floor));
  }
  return {Median(works), Median(floors)};
}

void PrintTable(const std::vector<Figure>& figures) {
  fmt::print("{:<26} {:>10} {:<4} {:>10} {:>8}  {}\n", "figure", "value", "unit", "floor", "ratio",
             "required");
  for (const Figure& figure : figures) {
    fmt::print("{:<26} {:>10} {:<4} {:>10} {:>8}  {}\n", figure.name, Short(figure.value),
               figure.unit, Short(figure.floor), Short(figure.Ratio()), figure.bound);
  }
}

void PrintJson(const std::vector<Figure>& figures) {
  for (const Figure& figure : figures) {
    fmt::print(
        "{{\"figure\":\"{}\",\"value\":{:.6g},\"unit\":\"{}\",\"floor\":{:.6g},\"ratio\":{:.4g}}}"
        "\n",
        figure.name, figure.value, figure.unit, figure.floor, figure.Ratio());
  }
}

}  // namespace rowproof::bench
