#include "wire/json_tree.hpp"

#include <limits>
#include <nlohmann/json.hpp>

namespace portwright::wire {
namespace {

using Library = nlohmann::ordered_json;

constexpr std::size_t deepest = 64, most_parts = 1024;

// Puts a document together from what the library reads; returning false ends the reading.
class Builder : public nlohmann::json_sax<Library> {
 public:
  [[nodiscard]] Json take() { return std::move(root_); }

  bool null() override { return put({}); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(std::int64_t value) override { return put(value); }
  bool number_unsigned(std::uint64_t value) override {
    if (value > static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max()))
      return put(static_cast<double>(value));
    return put(static_cast<std::int64_t>(value));
  }
  bool number_float(double value, const std::string&) override { return put(value); }
  bool string(std::string& value) override { return put(std::move(value)); }
  bool binary(Library::binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::list()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(std::string& name) override {
    Json& object = open_.back();
    if (object.parts().size() >= most_parts || object.find(name) != nullptr) return false;
    object.parts().emplace_back(std::move(name), Json());
    return true;
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) override { return false; }

 private:
  bool open(Json branch) {
    if (open_.size() >= deepest) return false;
    open_.push_back(std::move(branch));
    return true;
  }
  bool close() {
    Json done = std::move(open_.back());
    open_.pop_back();
    return put(std::move(done));
  }
  bool put(Json value) {
    if (open_.empty())
      root_ = std::move(value);
    else if (open_.back().is(Json::Kind::object))
      open_.back().parts().back().second = std::move(value);
    else
      open_.back().push_back(std::move(value));
    return true;
  }

  Json root_;
  std::vector<Json> open_;
};

Library of(const Json& json) {
  switch (json.kind()) {
    case Json::Kind::null:
      return nullptr;
    case Json::Kind::flag:
      return json.flag();
    case Json::Kind::whole:
      return json.whole();
    case Json::Kind::number:
      return json.number();
    case Json::Kind::text:
      return json.text();
    case Json::Kind::list: {
      Library out = Library::array();
      for (const Json& item : json.items()) out.push_back(of(item));
      return out;
    }
    case Json::Kind::object: {
      Library out = Library::object();
      for (const auto& [name, part] : json.parts()) out[name] = of(part);
      return out;
    }
  }
  return nullptr;
}

}  // namespace

std::optional<Json> Json::parse(std::string_view text) {
  Builder builder;
  if (!Library::sax_parse(text, &builder)) return std::nullopt;
  return builder.take();
}

std::string Json::line() const { return of(*this).dump(-1, ' ', false, Library::error_handler_t::replace); }

std::string Json::dump() const { return of(*this).dump(2, ' ', false, Library::error_handler_t::replace); }

}  // namespace portwright::wire
