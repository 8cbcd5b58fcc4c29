// Numbers and names as a pattern sheet prints them, metric and US. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_WORDS_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_WORDS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "services/domain/estimate/materials.h"

namespace rowproof::sheets {

// "1,540".
std::string Grouped(int64_t number);
// To a whole centimetre, below 20 cm to half of one: "38", "12.5".
std::string Centimetres(double mm);
// To a quarter of an inch: "24 1/2".
std::string Inches(double mm);
// "5.5 mm (US I-9)"; without the label if no US hook has this size. Labels: Craft Yarn Council,
// Hooks and Needles (the millimetres are the size; makers' letters differ).
std::string Hook(double mm);
// "4 Medium, 100 % cotton": class and fibre.
std::string YarnKind(const estimate::Yarn& yarn);
// "85 m (93 yd) per 50 g (1.76 oz)", or "400 tex (g in 1,000 m)"; empty without either.
std::string Ball(const estimate::Yarn& yarn);
// "A, Oat"; "A" if the yarn has no name.
std::string NameOfColour(estimate::YarnColour colour, const estimate::Yarn& yarn);
// Lines that are not blank.
std::vector<std::string> Lines(const std::string& passage);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_WORDS_H_
