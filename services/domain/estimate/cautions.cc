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

std::vector<std::string> Fibres(const Making& making) {
  std::vector<std::string> fibres = {making.yarn_a.fibre, making.yarn_b.fibre};
  if (making.border_yarn.has_value()) fibres.push_back(making.border_yarn->fibre);
  return fibres;
}

void AddHeat(const Making& making, std::vector<Caution>& cautions) {
  const auto fibres = Fibres(making);
  if (std::any_of(fibres.begin(), fibres.end(), NamesMeltingFibre)) {
    cautions.push_back({CautionCode::kMeltingFibre,
                        "A fibre named here (acrylic, polyester, nylon or another thermoplastic) "
                        "softens or melts on a hot pan: use cotton, wool or linen instead, and "
                        "follow what the yarn's maker says about heat."});
  }
  const bool unknown = std::any_of(fibres.begin(), fibres.end(), [](const std::string& fibre) {
    return !NamesMeltingFibre(fibre) && !NamesOneOf(fibre, kFibresUsedForHeat);
  });
  if (unknown) {
    cautions.push_back({CautionCode::kUnknownFibre,
                        "The fibre of a yarn is not stated, or not known here: read the ball band "
                        "before the item goes near heat, since thermoplastic fibres melt."});
  }
  cautions.push_back({CautionCode::kHeat,
                      "Nobody should rely on a pattern for protection from heat: thickness, fabric "
                      "and fibre all matter. A finished hot pad that is sold may fall under the "
                      "rules for protective equipment of the country (in the European Union, "
                      "Regulation (EU) 2016/425)."});
}

void AddSmallChildren(const chart::Design& design, const Making& making,
                      std::vector<Caution>& cautions) {
  if (making.item != ItemKind::kBabyItem && making.intended_user != IntendedUser::kSmallChild) {
    return;
  }
  const chart::Ends ends = making.ends.value_or(design.ends);
  const bool fringed = !making.added_fringe.empty() ||
                       (ends == chart::Ends::kCut && making.tail_use == TailUse::kFringe);
  if (fringed) {
    cautions.push_back({CautionCode::kLooseParts,
                        "Fringe is a hazard for babies and small children, who can be caught in "
                        "strands or swallow them: leave it off."});
  }
  if (ends == chart::Ends::kCarried) {
    cautions.push_back({CautionCode::kLooseParts,
                        "A carried strand that lies loose can catch the fingers of a baby or small "
                        "child: keep it tight inside the stitches, or choose another way of "
                        "treating the ends."});
  }
  cautions.push_back({CautionCode::kSmallChildren,
                      "Cords, loose threads and small parts are hazards for babies and small "
                      "children, and a loose blanket does not belong in the sleep space of a baby "
                      "in the first year. The rules of your country apply, and the seller of a "
                      "finished item has to follow them."});
}

}  // namespace

bool NamesMeltingFibre(const std::string& fibre) { return NamesOneOf(fibre, kMeltingFibres); }

std::vector<Caution> Cautions(const chart::Design& design, const Making& making) {
  std::vector<Caution> cautions;
  if (making.item == ItemKind::kHotPad) AddHeat(making, cautions);
  AddSmallChildren(design, making, cautions);
  const auto fibres = Fibres(making);
  if (std::any_of(fibres.begin(), fibres.end(),
                  [&fibres](const std::string& fibre) { return fibre != fibres.front(); })) {
    cautions.push_back({CautionCode::kCare,
                        "Yarns of different fibres are washed by the milder treatment of them, as "
                        "their bands state it; test a dark yarn for bleeding first."});
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
    case CautionCode::kCare:
      return "care";
    case CautionCode::kStrain:
      return "strain";
  }
  return "";
}

}  // namespace rowproof::estimate
