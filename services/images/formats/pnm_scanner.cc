#include "services/images/formats/pnm_scanner.h"

namespace rowproof::images {
namespace {

bool IsDigit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

bool IsPnmSpace(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\v' || c == '\f';
}

std::optional<PnmKind> PnmKindOf(std::string_view bytes) {
  if (bytes.size() < 3 || bytes[0] != 'P' || bytes[1] < '1' || bytes[1] > '6' ||
      (!IsPnmSpace(bytes[2]) && bytes[2] != '#')) {
    return std::nullopt;
  }
  const int number = bytes[1] - '1';
  const bool plain = number < 3;
  switch (number % 3) {
    case 0:
      return PnmKind{plain ? FileFormat::kPlainPbm : FileFormat::kRawPbm, plain, 1, true};
    case 1:
      return PnmKind{plain ? FileFormat::kPlainPgm : FileFormat::kRawPgm, plain, 1, false};
    default:
      return PnmKind{plain ? FileFormat::kPlainPpm : FileFormat::kRawPpm, plain, 3, false};
  }
}

std::optional<char> PnmScanner::Next() {
  if (at_end()) return std::nullopt;
  if (bytes_[at_] == '#') {
    while (!at_end() && bytes_[at_] != '\n' && bytes_[at_] != '\r') ++at_;
    if (at_end()) return std::nullopt;
  }
  return bytes_[at_++];
}

std::optional<char> PnmScanner::NextAfterSpace() {
  std::optional<char> c = Next();
  while (c.has_value() && IsPnmSpace(*c)) c = Next();
  return c;
}

std::optional<uint64_t> PnmScanner::Number() {
  std::optional<char> c = NextAfterSpace();
  ended_ = !c.has_value();
  if (ended_ || !IsDigit(*c)) return std::nullopt;
  uint64_t number = 0;
  while (c.has_value() && IsDigit(*c)) {
    number = number * 10 + static_cast<uint64_t>(*c - '0');
    if (number > kBeyondEveryLimit) number = kBeyondEveryLimit;
    c = Next();
  }
  if (c.has_value() && !IsPnmSpace(*c)) return std::nullopt;
  return number;
}

std::optional<uint64_t> PnmScanner::RawSample(bool two_bytes) {
  if (rest().size() < (two_bytes ? size_t{2} : size_t{1})) return std::nullopt;
  uint64_t sample = static_cast<unsigned char>(bytes_[at_++]);
  if (two_bytes) sample = sample << 8 | static_cast<unsigned char>(bytes_[at_++]);
  return sample;
}

std::optional<uint64_t> PnmScanner::RawBit(int x) {
  if (x % 8 == 0) {
    if (at_end()) return std::nullopt;
    byte_ = static_cast<uint8_t>(bytes_[at_++]);
  }
  return static_cast<uint64_t>(byte_ >> (7 - x % 8) & 1);
}

}  // namespace rowproof::images
