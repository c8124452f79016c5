#pragma once
// A JSON document as a plain value; its text is read and written in json_tree.cpp alone. Inside the module only.

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace portwright::wire {

class Json {
 public:
  enum class Kind { null, flag, whole, number, text, list, object };
  using Part = std::pair<std::string, Json>;

  Json() = default;
  Json(std::nullptr_t) {}
  Json(const char* text) : kind_(Kind::text), text_(text) {}
  Json(std::string text) : kind_(Kind::text), text_(std::move(text)) {}
  template <class T>
  requires std::is_arithmetic_v<T> Json(T value) {
    if constexpr (std::is_same_v<T, bool>) {
      kind_ = Kind::flag;
      whole_ = value ? 1 : 0;
    } else if constexpr (std::is_integral_v<T>) {
      kind_ = Kind::whole;
      whole_ = static_cast<std::int64_t>(value);
    } else {
      kind_ = Kind::number;
      number_ = static_cast<double>(value);
    }
  }
  /// An object with these parts, in this order.
  [[nodiscard]] static Json object(std::initializer_list<Part> parts = {}) {
    Json out;
    out.kind_ = Kind::object;
    out.parts_ = parts;
    return out;
  }
  [[nodiscard]] static Json list(std::vector<Json> items = {}) {
    Json out;
    out.kind_ = Kind::list;
    out.items_ = std::move(items);
    return out;
  }

  /// Nothing: it is no JSON, goes deeper than 64 levels, has an object of more than 1,024 parts, or one that says a
  /// part twice.
  [[nodiscard]] static std::optional<Json> parse(std::string_view text);
  /// Two blanks of indent; text that is not UTF-8 gets U+FFFD in its place.
  [[nodiscard]] std::string dump() const;
  /// The same on one line.
  [[nodiscard]] std::string line() const;

  [[nodiscard]] Kind kind() const { return kind_; }
  [[nodiscard]] bool is(Kind kind) const { return kind_ == kind; }
  [[nodiscard]] bool flag() const { return whole_ != 0; }
  [[nodiscard]] std::int64_t whole() const { return whole_; }
  [[nodiscard]] double number() const { return kind_ == Kind::whole ? static_cast<double>(whole_) : number_; }
  [[nodiscard]] const std::string& text() const { return text_; }
  [[nodiscard]] const std::vector<Json>& items() const { return items_; }
  [[nodiscard]] std::vector<Json>& items() { return items_; }
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  [[nodiscard]] std::vector<Part>& parts() { return parts_; }

  /// The part of that name, or null.
  [[nodiscard]] const Json* find(std::string_view name) const {
    for (const Part& part : parts_)
      if (part.first == name) return &part.second;
    return nullptr;
  }
  [[nodiscard]] Json* find(std::string_view name) { return const_cast<Json*>(std::as_const(*this).find(name)); }
  /// The part of that name, put at the end where there is none.
  Json& operator[](std::string_view name) {
    if (Json* found = find(name)) return *found;
    return parts_.emplace_back(std::string(name), Json()).second;
  }
  void erase(std::string_view name) {
    std::erase_if(parts_, [&](const Part& part) { return part.first == name; });
  }
  void push_back(Json item) { items_.push_back(std::move(item)); }

 private:
  Kind kind_ = Kind::null;
  std::int64_t whole_ = 0;
  double number_ = 0.0;
  std::string text_;
  std::vector<Json> items_;
  std::vector<Part> parts_;
};

}  // namespace portwright::wire
