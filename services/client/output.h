// How a command shows its answer.
#ifndef ROWPROOF_SERVICES_CLIENT_OUTPUT_H_
#define ROWPROOF_SERVICES_CLIENT_OUTPUT_H_

#include <CLI/CLI.hpp>
#include <string>

#include "google/protobuf/message.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

struct OutputOptions {
  bool json = false;
  std::string out;  // file; empty: standard output
  Style style;      // of text
};

// --json, --details, --units and --out. Units follow the environment's locale unless they are
// given.
void AddOutputOptions(CLI::App& app, OutputOptions& options);

// The API's JSON form, lowerCamelCase, empty lists and zeros included, with a line end.
std::string JsonOf(const google::protobuf::Message& message);
// Reads the API's JSON form into a message; throws Failure (refused) that names `source`.
void ReadJson(const std::string& source, const std::string& json,
              google::protobuf::Message* message);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_OUTPUT_H_
