// Reads any bytes as a fill-in form; a form without errors is written again, and has to read the
// same.
#include <cstdint>
#include <string_view>

#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/reader.h"
#include "services/domain/testcalls/forms/writer.h"

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace rowproof::testcalls;
  const auto reading = ReadForm({reinterpret_cast<const char*>(data), size});
  if (!reading.ok() || !reading->complete()) return 0;
  const auto again = ReadForm(WriteForm(reading->heading, FormNotes{}, &reading->report));
  if (!again.ok() || again->heading != reading->heading) __builtin_trap();
  // Numbers that Validate would refuse may be printed with an exponent, which the form has not.
  if (again->complete() && again->report != reading->report) __builtin_trap();
  return 0;
}
