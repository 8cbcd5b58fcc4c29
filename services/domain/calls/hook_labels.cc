#include "services/domain/calls/hook_labels.h"

namespace rowproof::calls {

std::optional<double> HookMmOfUsNumber(double number) {
  struct Hook {
    double number;
    double mm;
  };
  constexpr Hook kHooks[] = {{1, 2.25},   {2, 2.75}, {3, 3.25}, {4, 3.5}, {5, 3.75},
                             {6, 4},      {7, 4.5},  {8, 5},    {9, 5.5}, {10, 6},
                             {10.5, 6.5}, {11, 8},   {13, 9},   {15, 10}};
  for (const Hook& hook : kHooks) {
    if (hook.number == number) return hook.mm;
  }
  return std::nullopt;
}

}  // namespace rowproof::calls
