#include "services/domain/estimate/hook_labels.h"

#include <cmath>

namespace rowproof::estimate {
namespace {

struct Hook {
  double mm;
  const char* label;
  double number;  // 0: the label has none
};

constexpr Hook kHooks[] = {
    {2.25, "B-1", 1},  {2.75, "C-2", 2},   {3.25, "D-3", 3},        {3.5, "E-4", 4},
    {3.75, "F-5", 5},  {4, "G-6", 6},      {4.5, "7", 7},           {5, "H-8", 8},
    {5.5, "I-9", 9},   {6, "J-10", 10},    {6.5, "K-10 1/2", 10.5}, {8, "L-11", 11},
    {9, "M/N-13", 13}, {10, "N/P-15", 15}, {15, "P/Q", 0},          {16, "Q", 0},
    {19, "S", 0}};

}  // namespace

std::string HookUsLabel(double mm) {
  for (const Hook& hook : kHooks) {
    if (std::abs(hook.mm - mm) < 1e-6) return hook.label;
  }
  return "";
}

std::optional<double> HookMmOfUsNumber(double number) {
  for (const Hook& hook : kHooks) {
    if (hook.number != 0 && hook.number == number) return hook.mm;
  }
  return std::nullopt;
}

}  // namespace rowproof::estimate
