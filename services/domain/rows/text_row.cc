#include "services/domain/rows/text_row.h"

namespace rowproof::rows {

bool IsPlainStitch(TextStitch stitch) {
  return stitch == TextStitch::kSingleCrochet || stitch == TextStitch::kPlain;
}

bool IsDropStitch(TextStitch stitch, chart::Technique technique) {
  switch (stitch) {
    case TextStitch::kDrop:
      return true;
    case TextStitch::kSpike:
      return technique == chart::Technique::kSpike;
    case TextStitch::kMosaicDrop:
    case TextStitch::kDouble:
      return technique != chart::Technique::kSpike;
    default:
      return false;
  }
}

const char* AbbreviationOf(TextStitch stitch, chart::Terms terms) {
  const bool us = terms == chart::Terms::kUs;
  switch (stitch) {
    case TextStitch::kSingleCrochet:
      return us ? "sc" : "dc";
    case TextStitch::kSpike:
      return us ? "ssc" : "sdc";
    case TextStitch::kMosaicDrop:
      return us ? "mdc" : "mtr";
    case TextStitch::kHalfDouble:
      return us ? "hdc" : "htr";
    case TextStitch::kDouble:
      return us ? "dc" : "tr";
    case TextStitch::kTreble:
      return us ? "tr" : "dtr";
    case TextStitch::kDoubleTreble:
      return us ? "dtr" : "trtr";
    case TextStitch::kSlip:
      return us ? "sl st" : "ss";
    case TextStitch::kPlain:
      return "plain";
    case TextStitch::kDrop:
      return "drop";
  }
  return "";
}

}  // namespace rowproof::rows
