// The keys of a design file: one list for reading, writing and explaining it. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_KEYS_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_KEYS_H_

#include <string>
#include <variant>
#include <vector>

#include "services/client/design/options.h"
#include "services/client/design/tables.h"
#include "services/client/parsing/choices.h"

namespace rowproof::client {

// A key with one value, or with a list of texts.
struct DesignKey {
  std::string table;    // "": at the top
  std::string name;     // as in the file
  std::string option;   // that says the same; empty: none
  std::string what;     // for people, such as "Technique"
  std::string usual;    // what applies if it is not given
  std::string example;  // a value as it is written in the file
  DesignField (*field)(DesignOptions&);
  const Words& (*words)() = nullptr;  // a text is one of these
  double low = 0;                     // range of a number
  double high = 0;
  // Throws Failure for a text of another form; nullptr: any text.
  void (*check)(const std::string& name, const std::string& text) = nullptr;
  bool file = false;  // the name of a file, from the design file's folder on
};

// In the order of the file; keys of one table side by side.
const std::vector<DesignKey>& DesignKeys();

// Keys of [yarn.A] to [yarn.H] and [yarn.border], each with the word that --yarn has for it.
struct YarnKey {
  std::string name;
  std::string word;
  PartKey::Kind kind = PartKey::Kind::kText;
  double low = 0;
  double high = 0;
  std::string example;
};
const std::vector<YarnKey>& YarnKeys();

// Whether nothing is given.
bool IsEmpty(const DesignField& field);

// Takes from the design file what the options do not say. Of a gauge, an option takes the place of
// all counts; of a yarn, of what it says alone.
void FillFrom(const DesignOptions& design_file, DesignOptions* options);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_KEYS_H_
