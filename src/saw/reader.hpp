#pragma once
// From the tree of a saw file to Readings, field by field (a visitor of saw/fields.hpp). Inside the module only.

#include <string>
#include <vector>

#include "saw/fields.hpp"
#include "saw/nearest.hpp"
#include "saw/tree.hpp"

namespace portwright::saw {

/// What is wrong, by what it costs.
struct Troubles {
  base::Errors whole;     ///< the file cannot be taken
  base::Errors readings;  ///< one reading cannot be read; it is kept as typed
};

/// Reads the members of one table.
class Reader {
 public:
  Reader(const Node& node, std::string path, Troubles& troubles)
      : node_(node), path_(std::move(path)), troubles_(troubles) {}

  void reading(const char* key, Reading& to, base::Dimension dimension);
  void turn(const char* key, Reading& to);
  void places(const char* key, Places& to, base::Dimension dimension);
  void several(const char* key, Several& to, base::Dimension dimension);
  void pairs(const char* key, Pairs& to, base::Dimension first, base::Dimension second);
  void number(const char* key, Number& to);
  void flag(const char* key, Flag& to);
  void words(const char* key, std::string& to);
  void word(const char* key, std::string& to, Words allowed);
  void octane(const char* key, Octane& to);
  void power_at(const char* key, PowerAt& to);

  template <class T>
  void table(const char* key, T& to) {
    if (const Node* found = find(key); found != nullptr && is_table(key, *found)) read_into(*found, at(key), to);
  }
  template <class T>
  void tables(const char* key, std::vector<T>& to) {
    const Node* found = find(key);
    if (found == nullptr || !is_tables(key, *found)) return;
    for (const Node& item : found->items) {
      std::string path = at(key) + "." + std::to_string(to.size() + 1);
      read_into(item, std::move(path), to.emplace_back());
    }
  }
  void tables(const char* key, std::vector<Port>& to);

  /// Names every member that no field asked for; call when all fields were visited.
  void refuse_unknown();

 private:
  template <class T>
  void read_into(const Node& node, std::string path, T& to) {
    Reader reader(node, std::move(path), troubles_);
    fields(to, reader);
    reader.refuse_unknown();
  }
  const Node* find(const char* key);
  [[nodiscard]] std::string at(std::string_view key) const;
  bool is_table(const char* key, const Node& node);
  bool is_tables(const char* key, const Node& node);
  void refuse(base::ErrorCode code, std::string message, std::string path, std::string hint = {},
              std::vector<std::string> readings = {});
  void doubt(std::string message, std::string path, std::string hint = {}, std::vector<std::string> readings = {});
  void value(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn);
  void long_form(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn);
  void repeats(const Node& node, const std::string& path, Reading& to, base::Dimension dimension, bool turn);
  Typed typed(const Node& node, const std::string& path, base::Dimension dimension, bool turn = false);
  std::string plain_text(const Node& node, const std::string& path);
  bool port_is_named(const Node& node, const std::vector<Port>& before);
  bool port_has_kind(const Node& node, const std::string& where);

  const Node& node_;
  std::string path_;
  Troubles& troubles_;
  std::vector<std::string> known_;
};

/// Every key of the saw file with the table it lies in, "cylinder.squish"; ports, rings and the like without names or
/// numbers.
[[nodiscard]] const std::vector<std::string>& known_paths();

}  // namespace portwright::saw
