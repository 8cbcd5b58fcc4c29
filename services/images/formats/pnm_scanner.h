// Reads the numbers and samples of a Netpbm file, one after the other.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_SCANNER_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_SCANNER_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "services/images/import_report.h"

namespace rowproof::images {

struct PnmKind {
  FileFormat format = FileFormat::kPlainPbm;
  bool plain = false;  // numbers in digits
  size_t samples = 1;  // a pixel: 3 of a PPM
  bool bits = false;   // PBM: 1 is black
};

// By the first two bytes, P1 to P6, if white space or a comment follows. No value: another file.
std::optional<PnmKind> PnmKindOf(std::string_view bytes);

bool IsPnmSpace(char c);

// Not thread-safe. The bytes, which begin with the two letters of the kind, outlive it.
class PnmScanner {
 public:
  explicit PnmScanner(std::string_view bytes) : bytes_(bytes) {}

  // The next character of the header or of plain pixels; a comment, from # to the end of its line,
  // reads as that line's end. No value: the end of the file.
  std::optional<char> Next();
  std::optional<char> NextAfterSpace();
  // A number and the one space after it. No value if there is none; a number of any length stops
  // growing once it is over every limit.
  std::optional<uint64_t> Number();

  // A sample of raw pixels, of one byte or two; no value: the end of the file.
  std::optional<uint64_t> RawSample(bool two_bytes);
  // The bit of column x of a raw PBM, which begins a byte at every eighth column from 0.
  std::optional<uint64_t> RawBit(int x);

  // What has not been read, unchanged, with comments.
  std::string_view rest() const { return bytes_.substr(at_); }
  bool at_end() const { return at_ >= bytes_.size(); }
  // Number found the end of the file instead of a number.
  bool ended() const { return ended_; }
  // Place in the file, from 1, of the byte read last.
  size_t place() const { return at_; }

 private:
  static constexpr uint64_t kBeyondEveryLimit = 1'000'000'000'000'000'000;

  std::string_view bytes_;
  size_t at_ = 2;
  bool ended_ = false;
  uint8_t byte_ = 0;  // of a raw PBM, the one read last
};

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_PNM_SCANNER_H_
