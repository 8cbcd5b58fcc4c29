#include "services/domain/patterns/canonical.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <functional>
#include <memory>
#include <vector>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/identifiers.h"
#include "services/domain/patterns/canonical_decoding.h"
#include "tests/domain/patterns/sample_content.h"
#include "tests/support/source_folder.h"

namespace rowproof::patterns {
namespace {

std::string ReadFile(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  EXPECT_TRUE(file) << path;
  return {std::istreambuf_iterator<char>(file), {}};
}

// Standard output of a command that must succeed.
std::string OutputOf(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) {
    ADD_FAILURE() << command;
    return "";
  }
  std::string output;
  for (int c = fgetc(pipe); c != EOF; c = fgetc(pipe)) output += static_cast<char>(c);
  EXPECT_EQ(pclose(pipe), 0) << command;
  return output;
}

std::string HexOfBytes(std::string_view bytes) {
  std::string hex;
  for (const char byte : bytes) hex += fmt::format("{:02x}", static_cast<uint8_t>(byte));
  return hex;
}

std::string WithoutLineFeeds(std::string text) {
  std::erase(text, '\n');
  return text;
}

// The golden vectors: format 1 of SmallVersion, 2 of ColourfulVersion, 3 of WordyVersion, 4 of
// ScopedVersion, 5 of StyledVersion.
std::string GoldenPath(int format, const std::string& ending) {
  return InSources(fmt::format("tests/golden/version_format{}.{}", format, ending));
}
std::string GoldenHex(int format) { return WithoutLineFeeds(ReadFile(GoldenPath(format, "hex"))); }
VersionContent Golden(int format) {
  switch (format) {
    case 1:
      return SmallVersion();
    case 2:
      return ColourfulVersion();
    case 3:
      return WordyVersion();
    case 4:
      return ScopedVersion();
    default:
      return StyledVersion();
  }
}

testing::AssertionResult Refused(std::string_view encoding, const std::string& why) {
  const auto decoded = Decode(encoding);
  if (decoded.ok()) return testing::AssertionFailure() << "was accepted";
  if (decoded.status().code() != absl::StatusCode::kInvalidArgument ||
      decoded.status().message().find(why) == std::string_view::npos) {
    return testing::AssertionFailure() << decoded.status();
  }
  return testing::AssertionSuccess();
}

TEST(CanonicalEncoding, IsTheGoldenVectorOfItsFormat) {
  for (const int format : {1, 2, 3, 4, 5}) {
    ASSERT_TRUE(Validate(Golden(format)).ok()) << Validate(Golden(format));
    EXPECT_EQ(FormatOf(Golden(format)), static_cast<uint32_t>(format));
    EXPECT_EQ(HexOfBytes(Encode(Golden(format))), GoldenHex(format)) << format;
  }
}

// The generators are written apart from the service's code, in another language.
TEST(CanonicalEncoding, AgreesWithTheGeneratorInPython) {
  for (const int format : {1, 2, 3, 4, 5}) {
    EXPECT_EQ(WithoutLineFeeds(OutputOf("/usr/bin/python3 " + GoldenPath(format, "py"))),
              GoldenHex(format));
  }
}

TEST(CanonicalEncoding, OfTheGoldenVectorDecodesToItsContent) {
  for (const int format : {1, 2, 3, 4, 5}) {
    const std::string hex = GoldenHex(format);
    std::string bytes;
    for (size_t at = 0; at < hex.size(); at += 2) {
      bytes += static_cast<char>(std::stoi(hex.substr(at, 2), nullptr, 16));
    }
    const auto content = Decode(bytes);
    ASSERT_TRUE(content.ok()) << content.status();
    EXPECT_EQ(*content, Golden(format));
  }
}

// Each of these alone takes the content beyond format 1; without it the hash stays what it was.
TEST(CanonicalEncoding, IsOfFormat2ExactlyWhereFormat1CannotSayTheContent) {
  const std::vector<std::function<void(VersionContent&)>> changes = {
      [](auto& c) { c.design.row_colours[4] = chart::Colour::kC; },
      [](auto& c) { c.design.foundation_colour = chart::Colour::kA; },
      [](auto& c) { c.materials.yarn_a.tex = 400; },
      [](auto& c) { c.materials.border_yarn->tex = 400; },
      [](auto& c) { c.materials.more_yarns.emplace_back(); },
      [](auto& c) { c.materials.foundation.colour = chart::Colour::kC; },
      [](auto& c) { c.materials.border.colour = estimate::YarnColour::kC; },
      [](auto& c) { c.materials.added_fringe[0].colour = estimate::YarnColour::kH; },
      [](auto& c) { c.materials.calibration = "c"; },
      [](auto& c) { c.materials.assumptions.path_covariance.emplace(171, 0.25); },
  };
  VersionContent plain = SmallVersion();
  plain.design.row_colours = {chart::Colour::kA, chart::Colour::kB, chart::Colour::kA,
                              chart::Colour::kB, chart::Colour::kA};
  plain.design.form = chart::Form::kTube;
  plain.materials.border_yarn = plain.materials.yarn_a;
  plain.materials.foundation = {estimate::FoundationKind::kWorked, chart::Colour::kB};
  plain.materials.added_fringe.push_back({estimate::YarnColour::kBorder, 3, 50.0, {}});
  EXPECT_EQ(FormatOf(plain), 1u);
  for (size_t i = 0; i < changes.size(); ++i) {
    VersionContent changed = plain;
    changes[i](changed);
    EXPECT_EQ(FormatOf(changed), 2u) << i;
    const auto decoded = Decode(Encode(changed));
    ASSERT_TRUE(decoded.ok()) << i << ": " << decoded.status();
    EXPECT_EQ(*decoded, changed) << i;
  }
}

// A text that says its terms itself; one whose terms were given stays in the lower format.
TEST(CanonicalEncoding, IsOfFormat3ExactlyWhereATextsTermsAreLeftToIt) {
  for (VersionContent content : {SmallVersion(), ColourfulVersion()}) {
    const uint32_t lower = FormatOf(content);
    content.designer_text = "Row 1: sc 5.";
    EXPECT_EQ(FormatOf(content), lower);
    const std::string given = Encode(content);
    content.designer_text_terms.reset();
    EXPECT_EQ(FormatOf(content), 3u);
    EXPECT_NE(Encode(content), given);
    const auto decoded = Decode(Encode(content));
    ASSERT_TRUE(decoded.ok()) << decoded.status();
    EXPECT_EQ(*decoded, content);
  }
}

TEST(CanonicalEncoding, IsOfFormat4ExactlyWhereItSaysWhatACalibrationWasMeasuredIn) {
  for (VersionContent content : {SmallVersion(), ColourfulVersion(), WordyVersion()}) {
    const uint32_t lower = FormatOf(content);
    content.materials.calibration_scope.emplace();
    EXPECT_EQ(FormatOf(content), 4u);
    const auto decoded = Decode(Encode(content));
    ASSERT_TRUE(decoded.ok()) << decoded.status();
    EXPECT_EQ(*decoded, content);
    content.materials.calibration_scope.reset();
    EXPECT_EQ(FormatOf(content), lower);
  }
}

TEST(CanonicalEncoding, IsOfFormat5ExactlyWhereItSaysHowRowsAreWritten) {
  const std::vector<std::function<void(rows::RowStyle&)>> changes = {
      [](auto& style) { style.hand = chart::Hand::kRight; },
      [](auto& style) { style.terms = chart::Terms::kUk; },
      [](auto& style) { style.repeats = rows::RepeatStyle::kAsterisk; },
      [](auto& style) { style.nesting_depth = 0; },
      [](auto& style) { style.every_row = true; },
      [](auto& style) {
        style.colour_names = {"oat", "dark slate", "rust"};
      },
  };
  for (VersionContent content : {SmallVersion(), WordyVersion(), ScopedVersion()}) {
    EXPECT_LT(FormatOf(content), 5u);
    for (const auto& change : changes) {
      VersionContent changed = content;
      change(changed.row_style);
      EXPECT_EQ(FormatOf(changed), 5u);
      const auto decoded = Decode(Encode(changed));
      ASSERT_TRUE(decoded.ok()) << decoded.status();
      EXPECT_EQ(*decoded, changed);
    }
  }
}

TEST(CanonicalEncoding, NamesAPicturesColoursByteByByte) {
  const std::string encoding = Encode(ColourfulVersion());
  const std::string field(
      "\x0e"
      "b\0\0\0\x10\0\0\0\0\1\1\2\1\2\1\2\2\1\1\1\1",
      22);
  EXPECT_NE(encoding.find(field), std::string::npos);
}

// Outside check: GNU coreutils sha256sum and Python's hashlib, run now.
TEST(ContentHash, IsTheSha256OfOtherPrograms) {
  const std::string encoding = Encode(SmallVersion());
  const std::string path = testing::TempDir() + "/rowproof_canonical_encoding";
  std::ofstream(path, std::ios::binary) << encoding;
  const std::string ours = HexOf(Sha256Of(encoding));
  EXPECT_EQ(ours.size(), 64u);
  EXPECT_EQ(OutputOf("sha256sum < '" + path + "'").substr(0, 64), ours);
  EXPECT_EQ(WithoutLineFeeds(
                OutputOf(fmt::format("/usr/bin/python3 -c \"import hashlib; "
                                     "print(hashlib.sha256(open('{}','rb').read()).hexdigest())\"",
                                     path))),
            ours);
  std::remove(path.c_str());
}

TEST(CanonicalEncoding, GivesEveryContentBack) {
  std::mt19937_64 random(20261);
  for (int round = 0; round < 300; ++round) {
    const VersionContent content = RandomVersion(random);
    const std::string encoding = Encode(content);
    const auto decoded = Decode(encoding);
    ASSERT_TRUE(decoded.ok()) << round << ": " << decoded.status();
    ASSERT_EQ(*decoded, content) << round;
    ASSERT_EQ(Encode(*decoded), encoding) << round;
  }
}

TEST(CanonicalEncoding, IsEqualExactlyForEqualContents) {
  std::mt19937_64 random(20262);
  const VersionContent small = SmallVersion();
  const std::string encoding = Encode(small);
  for (int round = 0; round < 25; ++round) {
    VersionContent other = small;
    other.design.cells.set(Pick(random, 1, 5), Pick(random, 1, 5), Pick(random, 0, 1) == 1);
    EXPECT_EQ(Encode(other) == encoding, other == small);
  }
  VersionContent zero = small;
  zero.materials.fringe_length_mm = -0.0;
  EXPECT_EQ(zero, small);
  EXPECT_EQ(Encode(zero), encoding);
  VersionContent next = small;
  next.materials.gauge.rows_per_decimetre = std::nextafter(16.0, 17.0);
  EXPECT_NE(Encode(next), encoding);
}

TEST(CanonicalEncoding, PacksStitchOneIntoTheLowestBitOfEachRow) {
  VersionContent content = SmallVersion();
  content.design = WorkingChart({"x........x", "..........", ".........x"});
  const std::string encoding = Encode(content);
  // 3 rows, 10 stitches, 6 bytes: row 1 has stitch 1; row 3 stitches 1 and 10.
  const std::string fields(
      "\x06u\0\0\0\x03\x07u\0\0\0\x0a\x08"
      "b\0\0\0\x06\x01\0\0\0\x01\x02",
      24);
  EXPECT_NE(encoding.find(fields), std::string::npos);
}

TEST(Decoding, RefusesEveryTruncation) {
  for (const std::string& encoding :
       {Encode(SmallVersion()), Encode(ColourfulVersion()), Encode(WordyVersion()),
        Encode(ScopedVersion()), Encode(StyledVersion())}) {
    for (size_t length = 0; length < encoding.size(); ++length) {
      EXPECT_EQ(Decode(std::string_view(encoding).substr(0, length)).status().code(),
                absl::StatusCode::kInvalidArgument)
          << length;
    }
  }
}

TEST(Decoding, AcceptsAFlippedBitOnlyAsTheEncodingOfAnotherContent) {
  const VersionContent small = SmallVersion();
  std::string encoding = Encode(small);
  int accepted = 0;
  for (size_t bit = 0; bit < encoding.size() * 8; ++bit) {
    const auto mask = static_cast<char>(1 << bit % 8);
    encoding[bit / 8] = static_cast<char>(encoding[bit / 8] ^ mask);
    const auto decoded = Decode(encoding);
    if (decoded.ok()) {
      ++accepted;
      ASSERT_NE(*decoded, small) << bit;
      ASSERT_EQ(Encode(*decoded), encoding) << bit;
    } else {
      ASSERT_EQ(decoded.status().code(), absl::StatusCode::kInvalidArgument) << bit;
    }
    encoding[bit / 8] = static_cast<char>(encoding[bit / 8] ^ mask);
  }
  // Digits of numbers, letters of texts and cells can be otherwise.
  EXPECT_GT(accepted, 1000);
}

TEST(Decoding, SurvivesManyDamagedBytes) {
  std::mt19937_64 random(20263);
  for (int round = 0; round < 2000; ++round) {
    std::string encoding = Encode(SmallVersion());
    for (int n = Pick(random, 1, 6); n > 0; --n) {
      encoding[random() % encoding.size()] = static_cast<char>(random());
    }
    if (Pick(random, 0, 3) == 0) encoding.resize(random() % encoding.size());
    if (Pick(random, 0, 3) == 0) encoding.insert(random() % (encoding.size() + 1), "\x01u");
    const auto decoded = Decode(encoding);
    if (decoded.ok()) {
      ASSERT_EQ(Encode(*decoded), encoding) << round;
    }
  }
}

TEST(Decoding, RefusesWhatFollowsTheLastField) {
  EXPECT_TRUE(Refused(Encode(SmallVersion()) + std::string(1, '\0'), "after the last field"));
}

TEST(Decoding, RefusesAnotherFormat) {
  std::string encoding = Encode(SmallVersion());
  encoding[3] = 0;
  EXPECT_TRUE(Refused(encoding, "format 0"));
  encoding[3] = 6;
  EXPECT_TRUE(Refused(encoding, "format 6"));
  EXPECT_TRUE(Refused("", "an end in the middle"));
  EXPECT_TRUE(Refused("\1\2", "an end in the middle"));
}

// One content has one encoding: format 2 with nothing in it that format 1 could not say.
TEST(Decoding, RefusesFormat2WhereFormat1WouldDo) {
  using std::string_literals::operator""s;
  VersionContent content = SmallVersion();
  content.design.foundation_colour = chart::Colour::kA;
  std::string encoding = Encode(content);
  const std::string colour =
      "\x0f"
      "u\0\0\0\0"s;
  const size_t at = encoding.find(colour);
  ASSERT_NE(at, std::string::npos);
  encoding.erase(at, colour.size());
  // The lengths of the design's record: the second field of the content.
  const size_t length = encoding.find("\x02r"s) + 2;
  encoding[length + 3] = static_cast<char>(encoding[length + 3] - 6);
  EXPECT_TRUE(Refused(encoding, "format 2"));
}

TEST(Decoding, RefusesFormat3WhereTheTermsAreGiven) {
  VersionContent content = ColourfulVersion();
  content.designer_text = "Row 1: sc 5.";
  std::string encoding = Encode(content);
  encoding[3] = 3;
  EXPECT_TRUE(Refused(encoding, "format 3"));
}

TEST(Decoding, RefusesFormat5WithoutAStyleOfRows) {
  using std::string_literals::operator""s;
  std::string encoding = Encode(ScopedVersion());
  encoding[3] = 5;
  encoding +=
      "\x0b"
      "r\0\0\0\x0c"
      "\x05"
      "u\0\0\0\0"
      "\x06"
      "l\0\0\0\0"s;
  EXPECT_TRUE(Refused(encoding, "format 5"));
}

TEST(Decoding, RefusesFormat4WithoutWhatACalibrationWasMeasuredIn) {
  std::string encoding = Encode(ColourfulVersion());
  encoding[3] = 4;
  EXPECT_TRUE(Refused(encoding, "format 4"));
}

// `from` must stand in the encoding once; it is replaced by as many bytes.
std::string Patched(const std::string& from, const std::string& to) {
  std::string encoding = Encode(SmallVersion());
  const size_t at = encoding.find(from);
  EXPECT_NE(at, std::string::npos);
  EXPECT_EQ(encoding.find(from, at + 1), std::string::npos);
  EXPECT_EQ(from.size(), to.size());
  return encoding.replace(at, from.size(), to);
}

std::string RealField(char tag, double value) {
  std::string field{tag, 'd'};
  const auto bits = std::bit_cast<uint64_t>(value);
  for (int shift = 56; shift >= 0; shift -= 8) field += static_cast<char>(bits >> shift);
  return field;
}

TEST(Decoding, RefusesNumbersThatAreNotFiniteAndMinusZero) {
  const std::string assurance = RealField(19, 0.95);
  EXPECT_TRUE(Refused(Patched(assurance, RealField(19, NAN)), "not finite"));
  EXPECT_TRUE(Refused(Patched(assurance, RealField(19, INFINITY)), "not finite"));
  EXPECT_TRUE(Refused(Patched(assurance, RealField(19, -0.0)), "-0 in field 19"));
}

TEST(Decoding, RefusesCountsOverTheLimitBeforeAnythingIsAllocated) {
  using std::string_literals::operator""s;
  EXPECT_TRUE(Refused(Patched("\x0cl\0\0\0\x02"s, "\x0cl\xff\xff\xff\xff"s), "4294967295 entries"));
  EXPECT_TRUE(Refused(Patched("\x06u\0\0\0\x05"s, "\x06u\0\0\x0f\xa1"s), "4001 in field 6"));
  EXPECT_TRUE(Refused(Patched("\x06u\0\0\0\x05"s, "\x06u\0\0\x0f\xa0"s), "4000 rows of 5"));
  EXPECT_TRUE(Refused(Patched("\x07s\0\0\0\x0c"s, "\x07s\x7f\xff\xff\xff"s), "over the limit"));
}

TEST(Decoding, RefusesEnumsOutOfRangeCellsPastTheEdgeAndForeignText) {
  using std::string_literals::operator""s;
  EXPECT_TRUE(Refused(Patched("\x14u\0\0\0\0\x15u\0\0\0\0"s, "\x14u\0\0\0\x06\x15u\0\0\0\0"s),
                      "6 in field 20"));
  EXPECT_TRUE(Refused(Patched("\x08"
                              "b\0\0\0\x05\0"s,
                              "\x08"
                              "b\0\0\0\x05\x20"s),
                      "past the last stitch"));
  EXPECT_TRUE(Refused(Patched("Fen Ladder",
                              "Fen L\xff"
                              "dder"),
                      "not UTF-8"));
}

TEST(Decoding, RefusesADesignThatIsNotWellFormed) {
  using std::string_literals::operator""s;
  const auto decoded =
      Decode(Patched("\x01u\0\0\0\x02\x02u\0\0\0\x03"s, "\x01u\0\0\0\x02\x02u\0\0\0\x07"s));
  ASSERT_FALSE(decoded.ok());
  ASSERT_EQ(DetailOf(decoded.status()).fields.size(), 1u);
  EXPECT_EQ(DetailOf(decoded.status()).fields[0].field, "encoding.design.stitch_band.last");
}

TEST(CanonicalEncoding, OfTheLargestChartKeepsItsLength) {
  std::mt19937_64 random(20264);
  VersionContent content = SmallVersion();
  content.design = chart::Design();
  content.design.cells = RandomGrid(random, chart::kMostRows, chart::kMostStitches);
  const std::string encoding = Encode(content);
  EXPECT_GT(encoding.size(), 2'000'000u);
  EXPECT_LT(encoding.size(), 2'003'000u);
  const auto decoded = Decode(encoding);
  ASSERT_TRUE(decoded.ok()) << decoded.status();
  EXPECT_EQ(*decoded, content);
}

}  // namespace
}  // namespace rowproof::patterns
