// Fields of any message, read and changed by its descriptor. Thread-safe.
#ifndef ROWPROOF_TESTS_RPC_HANDLERS_MESSAGE_FIELDS_H_
#define ROWPROOF_TESTS_RPC_HANDLERS_MESSAGE_FIELDS_H_

#include <google/protobuf/descriptor.h>
#include <google/protobuf/message.h>

#include <set>
#include <string>
#include <utility>

namespace rowproof::rpc {

// The field at "pattern.name", with the message that it is a field of. Every step is a field.
std::pair<google::protobuf::Message*, const google::protobuf::FieldDescriptor*> FieldAt(
    google::protobuf::Message& message, const std::string& path);

std::string TextAt(google::protobuf::Message& message, const std::string& path);
void SetText(google::protobuf::Message& message, const std::string& path, const std::string& value);

// Puts `to` for `from` in every text of the message that is no list.
void ReplaceText(google::protobuf::Message& message, const std::string& from,
                 const std::string& to);

// Clears the texts of these names, also within what the message holds, and collects their values.
void Take(google::protobuf::Message& message, const std::set<std::string>& names,
          std::set<std::string>* values);

std::string Shown(const google::protobuf::Message& message);

bool Has(const google::protobuf::Descriptor& message, const std::string& field);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_HANDLERS_MESSAGE_FIELDS_H_
