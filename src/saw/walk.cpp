#include "saw/walk.hpp"

#include "saw/fields.hpp"

namespace portwright::saw {
namespace {

class Walk {
 public:
  Walk(std::string path, std::string kind, const std::function<void(const FieldAt&)>& each)
      : path_(std::move(path)), kind_(std::move(kind)), each_(each) {}

  void reading(const char* key, const Reading& from, base::Dimension dimension) { say(key, dimension, from.taken()); }
  void turn(const char* key, const Reading& from) { say(key, D::angle, from.taken()); }
  void places(const char* key, const Places& from, base::Dimension dimension) { say(key, dimension, from.taken()); }
  void several(const char* key, const Several& from, base::Dimension dimension) { say(key, dimension, from.taken()); }
  void pairs(const char* key, const Pairs& from, base::Dimension first, base::Dimension second) {
    say(std::string(key) + ".first", first, from.taken());
    say(std::string(key) + ".second", second, from.taken());
  }
  void number(const char* key, const Number& from) { say(key, D::count, from.taken()); }
  void flag(const char* key, const Flag& from) { say(key, std::nullopt, from.taken()); }
  void words(const char* key, const std::string& from) { say(key, std::nullopt, !from.empty()); }
  void word(const char* key, const std::string& from, Words) { words(key, from); }
  void octane(const char* key, const Octane& from) { say(key, D::count, from.taken()); }
  void power_at(const char* key, const PowerAt& from) {
    say(key, D::power, from.taken());
    say(std::string(key) + ".at", D::speed, from.taken());
  }
  template <class T>
  void table(const char* key, const T& from) {
    go(at(key), kind_, from);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& from) {
    for (std::size_t i = 0; i < from.size(); ++i) go(at(key) + "." + std::to_string(i + 1), kind_, from[i]);
  }
  void tables(const char* key, const std::vector<Port>& from) {
    for (const Port& port : from) go(at(key) + "." + port.name, port.kind, port);
  }

 private:
  template <class T>
  void go(std::string path, std::string kind, const T& from) {
    Walk inner(std::move(path), std::move(kind), each_);
    fields(from, inner);
  }
  [[nodiscard]] std::string at(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }
  void say(const std::string& key, std::optional<base::Dimension> dimension, bool taken) {
    each_({at(key), kind_, dimension, taken});
  }

  std::string path_, kind_;
  const std::function<void(const FieldAt&)>& each_;
};

}  // namespace

void for_each_field(const Readings& readings, const std::function<void(const FieldAt&)>& each) {
  Walk walk("", "", each);
  fields(readings, walk);
}

}  // namespace portwright::saw
