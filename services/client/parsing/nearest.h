// Words that a slip of the fingers may have meant. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_NEAREST_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_NEAREST_H_

#include <string>
#include <vector>

namespace rowproof::client {

// The candidate that differs least from what was typed: a letter more, less, other or exchanged
// with its neighbour counts as one difference; at most a third of the word may differ. A candidate
// that begins with at least three letters typed is near too. Empty if none is near; of two that are
// as near, the first.
std::string NearestOf(const std::string& typed, const std::vector<std::string>& candidates);

// "; did you mean \"check\"?", or nothing.
std::string DidYouMean(const std::string& typed, const std::vector<std::string>& candidates);

// "a", "a or b", "a, b or c".
std::string AnyOf(const std::vector<std::string>& words);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_NEAREST_H_
