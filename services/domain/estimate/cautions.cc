#include "services/domain/estimate/cautions.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace rowproof::estimate {
namespace {

constexpr std::array<std::string_view, 11> kMeltingFibres = {
    "acrylic",  "polyester", "nylon",   "polyamide", "polypropylene", "polyethylene",
    "microfib", "elastane",  "spandex", "acetate",   "lurex"};
constexpr std::array<std::string_view, 5> kFibresUsedForHeat = {"cotton", "wool", "linen", "flax",
                                                                "merino"};

std::string Lowered(const std::string& text) {
  std::string lowered = text;
  for (char& c : lowered) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lowered;
}

template <size_t N>
bool NamesOneOf(const std::string& fibre, const std::array<std::string_view, N>& names) {
  const std::string lowered = Lowered(fibre);
  return std::any_of(names.begin(), names.end(), [&lowered](std::string_view name) {
    return lowered.find(name) != std::string::npos;
  });
}

// One for each yarn of the item.
std::vector<std::string> Fibres(const chart::Design& design, const Materials& materials) {
  std::vector<std::string> fibres;
  for (const YarnColour colour : YarnsUsed(design, materials)) {
    fibres.push_back(YarnOf(materials, colour).fibre);
  }
  return fibres;
}

// Both yarns of inset wait at an edge, whatever is declared.
chart::Ends EndsOf(const chart::Design& design, const Materials& materials) {
  return design.technique == chart::Technique::kInset ? chart::Ends::kWaiting
                                                      : materials.ends.value_or(design.ends);
}

void AddHeat(const std::vector<std::string>& fibres, std::vector<Caution>& cautions) {
  if (std::any_of(fibres.begin(), fibres.end(), NamesMeltingFibre)) {
    cautions.push_back(
        {CautionCode::kMeltingFibre,
         "Acrylic, polyester, nylon and other thermoplastic fibres soften or melt on "
         "a hot pan: use cotton, wool or linen instead, and follow the yarn maker's "
         "advice about heat."});
  }
  const bool unknown = std::any_of(fibres.begin(), fibres.end(), [](const std::string& fibre) {
    return !NamesMeltingFibre(fibre) && !NamesOneOf(fibre, kFibresUsedForHeat);
  });
  if (unknown) {
    cautions.push_back(
        {CautionCode::kUnknownFibre,
         "The fibre of a yarn is not stated or not known: check the ball band before "
         "the item goes near heat, because thermoplastic fibres melt."});
  }
  cautions.push_back({CautionCode::kHeat,
                      "Do not rely on a pattern for protection from heat: thickness, fabric and "
                      "fibre all matter. If you sell finished hot pads, your country's rules for "
                      "protective equipment may apply (in the European Union, Regulation (EU) "
                      "2016/425)."});
}

// Loops of the fabric itself that catch small fingers.
void AddLoopsOfTechnique(const chart::Design& design, chart::Ends ends,
                         std::vector<Caution>& cautions) {
  if (design.technique == chart::Technique::kInset) {
    cautions.push_back(
        {CautionCode::kLooseParts,
         "The chains behind skipped stitches can catch the fingers of a baby or small "
         "child: keep them short."});
  }
  if (design.technique == chart::Technique::kOverlay) {
    cautions.push_back(
        {CautionCode::kLooseParts,
         "Overlay stitches lie loose on the front and can catch the fingers of a baby "
         "or small child: keep runs of them short."});
  }
  if (ends == chart::Ends::kWaiting) {
    cautions.push_back({CautionCode::kLooseParts,
                        "Yarn that waits at the edge can leave loops that catch the fingers of a "
                        "baby or small child: draw it close, or cover the edge with a border."});
  }
}

// A strand of the resting colour runs inside every row, under stitches of another colour.
void AddCarriedStrand(const chart::Design& design, const Materials& materials,
                      const std::vector<std::string>& fibres, std::vector<Caution>& cautions) {
  if (EndsOf(design, materials) != chart::Ends::kCarried) return;
  cautions.push_back(
      {CautionCode::kShowThrough,
       "A carried strand can show through, above all a dark strand in light "
       "stitches: try both colours on a swatch, or handle the ends in another way."});
  const bool all_melt = std::all_of(fibres.begin(), fibres.end(), NamesMeltingFibre);
  if (all_melt) return;
  const bool washed_often = materials.item == ItemKind::kHotPad ||
                            materials.item == ItemKind::kBabyItem ||
                            materials.intended_user == IntendedUser::kSmallChild;
  cautions.push_back(
      {CautionCode::kBleeding,
       std::string(
           "A dark strand carried inside light stitches stains them if its dye bleeds: wash "
           "and dry a swatch of both colours first") +
           (washed_often ? ", at the temperature at which you will wash the item." : ".")});
}

void AddSmallChildren(const chart::Design& design, const Materials& materials,
                      std::vector<Caution>& cautions) {
  if (materials.item != ItemKind::kBabyItem &&
      materials.intended_user != IntendedUser::kSmallChild) {
    return;
  }
  const chart::Ends ends = EndsOf(design, materials);
  const bool fringed = !materials.added_fringe.empty() ||
                       (ends == chart::Ends::kCut && materials.tail_use == TailUse::kFringe);
  if (fringed) {
    cautions.push_back(
        {CautionCode::kLooseParts,
         "Babies and small children can be caught in a fringe or swallow its strands: "
         "leave it off."});
  }
  if (ends == chart::Ends::kCarried) {
    cautions.push_back(
        {CautionCode::kLooseParts,
         "A loose carried strand can catch the fingers of a baby or small child: keep "
         "it snug inside the stitches, or handle the ends in another way."});
  }
  AddLoopsOfTechnique(design, ends, cautions);
  cautions.push_back({CautionCode::kSmallChildren,
                      "Cords, loose threads and small parts are hazards for babies and small "
                      "children, and a loose blanket does not belong in a baby's bed in the first "
                      "year. If you sell finished items, follow your country's safety rules."});
}

}  // namespace

bool NamesMeltingFibre(const std::string& fibre) { return NamesOneOf(fibre, kMeltingFibres); }

std::vector<Caution> Cautions(const chart::Design& design, const Materials& materials) {
  std::vector<Caution> cautions;
  const auto fibres = Fibres(design, materials);
  if (materials.item == ItemKind::kHotPad) AddHeat(fibres, cautions);
  AddSmallChildren(design, materials, cautions);
  AddCarriedStrand(design, materials, fibres, cautions);
  if (std::any_of(fibres.begin(), fibres.end(),
                  [&fibres](const std::string& fibre) { return fibre != fibres.front(); })) {
    cautions.push_back({CautionCode::kCare,
                        "Wash according to the gentler of the yarns' care labels; test a dark yarn "
                        "for bleeding first."});
  }
  cautions.push_back({CautionCode::kStrain,
                      "Long repetitive work strains hands and arms: take breaks and stretch."});
  return cautions;
}

const char* CodeName(CautionCode code) {
  switch (code) {
    case CautionCode::kHeat:
      return "heat";
    case CautionCode::kMeltingFibre:
      return "melting-fibre";
    case CautionCode::kUnknownFibre:
      return "unknown-fibre";
    case CautionCode::kSmallChildren:
      return "small-children";
    case CautionCode::kLooseParts:
      return "loose-parts";
    case CautionCode::kShowThrough:
      return "show-through";
    case CautionCode::kBleeding:
      return "bleeding";
    case CautionCode::kCare:
      return "care";
    case CautionCode::kStrain:
      return "strain";
  }
  return "";
}

}  // namespace rowproof::estimate
