// The tables of a design file that are one text of an option each. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_DESIGN_TABLES_H_
#define ROWPROOF_SERVICES_CLIENT_DESIGN_TABLES_H_

#include <string>
#include <vector>

#include "services/client/design/options.h"

namespace rowproof::client {

// A key of a table that becomes part of one option's text: [gauge] stitches, [[size]] name.
struct PartKey {
  std::string name;
  enum class Kind { kText, kWhole, kNumber, kSwitch } kind = Kind::kText;
  bool needed = false;
  double low = 0;
  double high = 0;
};

// Parts as texts by their key, empty if not given; a switch is "true" or "false".
using Parts = std::vector<std::string>;

// A table, or a list of tables, each of which is one text as an option takes it.
struct DesignTable {
  std::string name;
  std::string option;
  std::string what;
  bool many = false;  // [[name]], any number of them
  std::vector<PartKey> parts;
  std::string example;                   // a whole table, as lines of the file
  DesignField (*field)(DesignOptions&);  // a text, or a list of texts
  std::string (*join)(const Parts& parts);
  // Throws Failure for a text of another form.
  void (*check)(const std::string& name, const std::string& text);
  Parts (*split)(const std::string& text);
};

const std::vector<DesignTable>& DesignTables();

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_DESIGN_TABLES_H_
