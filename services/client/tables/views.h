// Answers of the server for people, by the descriptors of their fields: words for enums, metric and
// US units, times in UTC. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_VIEWS_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_VIEWS_H_

#include <string>
#include <string_view>
#include <vector>

#include "google/protobuf/descriptor.h"
#include "google/protobuf/generated_enum_reflection.h"
#include "google/protobuf/message.h"
#include "google/protobuf/timestamp.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

// CALL_STATE_GIVEN_UP of CallState -> "given-up"; a letter (COLOUR_A) stays a capital.
std::string WordOf(const google::protobuf::EnumValueDescriptor& value);
template <typename Enum>
std::string Word(Enum value) {
  const auto* found = google::protobuf::GetEnumDescriptor<Enum>()->FindValueByNumber(value);
  return found == nullptr ? "unknown" : WordOf(*found);
}
// All words of an enum but "unspecified".
std::vector<std::string> WordsOf(const google::protobuf::EnumDescriptor& type);

// "2026-03-31 14:05 UTC"; "-" for the time 0.
std::string TimeText(const google::protobuf::Timestamp& time);

// One field by its path ("settings.title"); "-" if it is absent or empty. A list is joined by
// commas, a list of messages is its count.
std::string ValueOf(const google::protobuf::Message& message, std::string_view path,
                    Units units = Units::kMetric);

// A line for each field that is set, label and value, messages and lists of messages indented.
std::string RecordOf(const google::protobuf::Message& message, const Style& style);

// A column of a table: its head and the path of its field.
struct View {
  std::string head;
  std::string path;
};
template <typename Messages>
std::string ListOf(const Messages& messages, const std::vector<View>& views);
// Long resource names ("Name", the first view) are on separate lines.
std::string TableOf(const std::vector<const google::protobuf::Message*>& messages,
                    const std::vector<View>& views);

template <typename Messages>
std::string ListOf(const Messages& messages, const std::vector<View>& views) {
  std::vector<const google::protobuf::Message*> rows;
  for (const auto& message : messages) rows.push_back(&message);
  return TableOf(rows, views);
}

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_VIEWS_H_
