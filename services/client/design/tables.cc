#include "services/client/design/tables.h"

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/quantities.h"

namespace rowproof::client {
namespace {

using Kind = PartKey::Kind;

// The text before and after the first `sign`; all of it and nothing if there is none.
std::pair<std::string, std::string> Cut(std::string_view text, char sign) {
  const size_t at = text.find(sign);
  if (at == std::string_view::npos) return {std::string(Trimmed(text)), ""};
  return {std::string(Trimmed(text.substr(0, at))), std::string(Trimmed(text.substr(at + 1)))};
}

// "14 sts" as "14".
std::string NumberAlone(const std::string& text) {
  return text.substr(0, text.find_first_not_of("0123456789."));
}

// Name and repeats: "wide:4x2".
std::string JoinSize(const Parts& parts) {
  return parts[0] + ":" + (parts[1].empty() ? "1x1" : parts[1]);
}
void CheckSize(const std::string&, const std::string& text) { SizeOf(text); }
Parts SplitSize(const std::string& text) {
  const size_t colon = text.rfind(':');
  if (colon == std::string::npos) return {text, "1x1"};
  return {text.substr(0, colon), text.substr(colon + 1)};
}

// Stitches, rows and span: "14x16/4in".
std::string JoinGauge(const Parts& parts) {
  return fmt::format("{}x{}/{}", parts[0], parts[1], parts[2]);
}
void CheckGauge(const std::string& name, const std::string& text) { GaugeReadingOf(name, text); }
Parts SplitGauge(const std::string& text) {
  const auto [counts, span] = Cut(text, '/');
  const auto [stitches, rows] = Cut(counts, 'x');
  return {NumberAlone(stitches), NumberAlone(rows), span};
}

// Rounds, colour and double: "2:A:double".
std::string JoinBorder(const Parts& parts) {
  const bool is_double = parts[2] == "true";
  if (parts[1].empty() && !is_double) return parts[0];
  return parts[0] + ":" + (parts[1].empty() ? "A" : parts[1]) + (is_double ? ":double" : "");
}
void CheckBorder(const std::string& name, const std::string& text) {
  v1::Materials materials;
  SetBorder(name, text, &materials);
}
Parts SplitBorder(const std::string& text) {
  const auto [rounds, rest] = Cut(text, ':');
  const auto [colour, layers] = Cut(rest, ':');
  return {rounds, colour, layers == "double" ? "true" : ""};
}

// Colour, strands, length and edge: "A:40x8cm:row-ends".
std::string JoinFringe(const Parts& parts) {
  const std::string text = fmt::format("{}:{}x{}", parts[0], parts[1], parts[2]);
  return parts[3].empty() ? text : text + ":" + parts[3];
}
void CheckFringe(const std::string& name, const std::string& text) {
  v1::Materials materials;
  AddFringe(name, text, &materials);
}
Parts SplitFringe(const std::string& text) {
  const auto [colour, rest] = Cut(text, ':');
  const auto [amount, edge] = Cut(rest, ':');
  const auto [strands, length] = Cut(amount, 'x');
  return {colour, strands, length, edge};
}

// Stitches and rows: "10x12".
std::string JoinSwatch(const Parts& parts) { return parts[0] + "x" + parts[1]; }
void CheckSwatch(const std::string& name, const std::string& text) {
  v1::Materials materials;
  SetSwatch(name, text, &materials);
}
Parts SplitSwatch(const std::string& text) {
  const auto [stitches, rows] = Cut(text, 'x');
  return {stitches, rows};
}

const std::vector<PartKey>& GaugeParts() {
  static const auto& parts =
      *new std::vector<PartKey>{{"stitches", Kind::kNumber, true, 0.1, 10000},
                                {"rows", Kind::kNumber, true, 0.1, 10000},
                                {"over", Kind::kText, true}};
  return parts;
}

}  // namespace

const std::vector<DesignTable>& DesignTables() {
  static const auto& tables = *new std::vector<DesignTable>{
      {"size",
       "--size",
       "Size",
       true,
       {{"name", Kind::kText, true}, {"repeats", Kind::kText}},
       "[[size]]\nname = \"wide\"\nrepeats = \"4x2\"  # of the stitches and of the rows\n",
       [](DesignOptions& o) -> DesignField { return &o.chart.sizes; },
       JoinSize,
       CheckSize,
       SplitSize},
      {"gauge", "--gauge", "Gauge", true, GaugeParts(),
       "[gauge]\nstitches = 14\nrows = 16\nover = \"4 in\"\n",
       [](DesignOptions& o) -> DesignField { return &o.materials.gauges; }, JoinGauge, CheckGauge,
       SplitGauge},
      {"blocked_gauge", "--blocked-gauge", "Gauge after blocking", true, GaugeParts(),
       "[blocked_gauge]\nstitches = 13\nrows = 15\nover = \"4 in\"\n",
       [](DesignOptions& o) -> DesignField { return &o.materials.blocked_gauges; }, JoinGauge,
       CheckGauge, SplitGauge},
      {"border",
       "--border",
       "Border",
       false,
       {{"rounds", Kind::kWhole, true, 0, 200}, {"colour", Kind::kText}, {"double", Kind::kSwitch}},
       "[border]\nrounds = 2\ncolour = \"A\"\ndouble = false\n",
       [](DesignOptions& o) -> DesignField { return &o.materials.border; },
       JoinBorder,
       CheckBorder,
       SplitBorder},
      {"fringe",
       "--fringe",
       "Added fringe",
       true,
       {{"colour", Kind::kText, true},
        {"strands", Kind::kWhole, true, 1, 1000000},
        {"length", Kind::kText, true},
        {"edge", Kind::kText}},
       "[[fringe]]\ncolour = \"A\"\nstrands = 40\nlength = \"8 cm\"\n",
       [](DesignOptions& o) -> DesignField { return &o.materials.fringes; },
       JoinFringe,
       CheckFringe,
       SplitFringe},
      {"swatch",
       "--swatch",
       "Swatch",
       false,
       {{"stitches", Kind::kWhole, true, 1, 4000}, {"rows", Kind::kWhole, true, 1, 4000}},
       "[swatch]\nstitches = 20\nrows = 20\n",
       [](DesignOptions& o) -> DesignField { return &o.materials.swatch; },
       JoinSwatch,
       CheckSwatch,
       SplitSwatch}};
  return tables;
}

}  // namespace rowproof::client
