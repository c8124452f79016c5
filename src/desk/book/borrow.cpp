// A saw begun from a sister's readings: each with a tolerance that holds how far sisters differ.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/quantity/normal.hpp"
#include "desk/book.hpp"
#include "desk/book/between.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/book/sisters.hpp"
#include "saw/fields.hpp"
#include "tables/assumptions.hpp"

namespace portwright::desk {
namespace {

/// One sigma of what was rounded to whole steps, in steps: 1/sqrt(12).
constexpr double uniform_sigma = 0.28867513459481287;

/// The readings of one place taken together: their mean and one sigma of it, SI.
std::optional<Measured> mean_of(const saw::Reading& reading) {
  double sum = 0.0, variance = 0.0;
  int count = 0;
  for (const saw::Typed& typed : reading.repeats) {
    if (!typed.value) continue;
    const double sigma = typed.value->sigma.value_or(typed.value->resolution * uniform_sigma);
    sum += typed.value->si;
    variance += sigma * sigma;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Measured{sum / count, std::sqrt(variance) / count};
}

// Means of all readings of a saw by their paths.
struct MeanWalk {
  std::string place;
  std::map<std::string, Measured>& out;

  void add(const std::string& key, const saw::Reading& from) {
    if (const auto mean = mean_of(from)) out[place + key] = *mean;
  }
  void reading(const char* key, const saw::Reading& from, base::Dimension) { add(key, from); }
  void turn(const char* key, const saw::Reading& from) { add(key, from); }
  void places(const char* key, const saw::Places& from, base::Dimension) {
    for (const auto& [name, reading] : from.places) add(key + ('.' + name), reading);
  }
  void several(const char*, const saw::Several&, base::Dimension) {}
  void pairs(const char*, const saw::Pairs&, base::Dimension, base::Dimension) {}
  void number(const char*, const saw::Number&) {}
  void flag(const char*, const saw::Flag&) {}
  void words(const char*, const std::string&) {}
  void word(const char*, const std::string&, saw::Words) {}
  void octane(const char*, const saw::Octane&) {}
  void power_at(const char*, const saw::PowerAt&) {}
  template <class T>
  void table(const char* key, const T& from) {
    MeanWalk inner{place + key + '.', out};
    fields(from, inner);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& from) {
    for (std::size_t i = 0; i < from.size(); ++i) {
      MeanWalk inner{place + key + '.' + std::to_string(i + 1) + '.', out};
      fields(from[i], inner);
    }
  }
  void tables(const char* key, const std::vector<saw::Port>& from) {
    for (const saw::Port& port : from) {
      MeanWalk inner{place + key + '.' + port.name + '.', out};
      fields(port, inner);
    }
  }
};

/// How sure one saw's reading is of another's: usual spread as one would judge it, and what the sisters show.
class Width {
 public:
  explicit Width(const std::vector<saw::Readings>& sisters) {
    for (const saw::Readings& one : sisters) {
      std::map<std::string, Measured> means;
      MeanWalk walk{"", means};
      fields(one, walk);
      for (const auto& [path, mean] : means) sisters_[path].push_back(mean);
    }
  }

  /// One sigma of the other saw's true value about this saw's reading. The judged spread counts as three saws would.
  [[nodiscard]] double sigma(const std::string& path, const Measured& own, base::Dimension dimension) const {
    const double judged = judged_spread(own.value, dimension);
    double variance = judged * judged;
    if (const auto found = sisters_.find(path); found != sisters_.end() && found->second.size() > 1) {
      constexpr double weight_judged = 3.0;
      const double seen = between(found->second).spread, freedom = static_cast<double>(found->second.size() - 1);
      variance = (weight_judged * variance + freedom * seen * seen) / (weight_judged + freedom);
    }
    return std::sqrt(2.0 * variance + own.sigma * own.sigma);  // both saws differ from their mean
  }

 private:
  static double judged_spread(double value, base::Dimension dimension) {
    if (dimension == base::Dimension::angle) return tables::assumption("sister_edge").sigma;
    if (dimension == base::Dimension::length) return tables::assumption("sister_length").sigma;
    return std::abs(value) * tables::assumption("sister_share").sigma;
  }
  std::map<std::string, std::vector<Measured>> sisters_;
};

std::string widened_text(const Measured& own, double sigma, const base::Unit& unit) {
  const double value = (own.value - unit.offset) / unit.scale, wide = sigma / unit.scale;
  const int decimals = std::clamp(static_cast<int>(std::ceil(1.0 - std::log10(std::max(wide, 1e-9)))), 0, 6);
  const auto digits = [decimals](double number) {
    std::string out(64, '\0');
    out.resize(static_cast<std::size_t>(std::snprintf(out.data(), out.size(), "%.*f", decimals, number)));
    return out;
  };
  return digits(value) + ' ' + unit.symbol + " +- " + digits(wide);
}

// Makes every reading a borrowed one. What cannot be read is left out.
class Borrower {
 public:
  Borrower(std::string place, const Width& width, const std::string& note, int& left_out)
      : place_(std::move(place)), width_(width), note_(note), left_out_(left_out) {}

  void reading(const char* key, saw::Reading& to, base::Dimension dimension) { borrow(key, to, dimension); }
  void turn(const char* key, saw::Reading& to) { borrow(key, to, base::Dimension::angle); }
  void places(const char* key, saw::Places& to, base::Dimension dimension) {
    for (auto& [name, reading] : to.places) borrow(key + ('.' + name), reading, dimension);
  }
  void several(const char*, saw::Several&, base::Dimension) {}
  void pairs(const char*, saw::Pairs&, base::Dimension, base::Dimension) {}
  void number(const char*, saw::Number&) {}
  void flag(const char*, saw::Flag&) {}
  void words(const char*, std::string&) {}
  void word(const char*, std::string&, saw::Words) {}
  void octane(const char*, saw::Octane&) {}
  void power_at(const char*, saw::PowerAt&) {}
  template <class T>
  void table(const char* key, T& to) {
    Borrower inner(place_ + key + '.', width_, note_, left_out_);
    fields(to, inner);
  }
  template <class T>
  void tables(const char* key, std::vector<T>& to) {
    for (std::size_t i = 0; i < to.size(); ++i) {
      std::string name = std::to_string(i + 1);
      if constexpr (std::is_same_v<T, saw::Port>) name = to[i].name;
      Borrower inner(place_ + key + '.' + name + '.', width_, note_, left_out_);
      fields(to[i], inner);
    }
  }

 private:
  void borrow(const std::string& key, saw::Reading& to, base::Dimension dimension) {
    if (!to.taken()) return void(to = {});
    const auto own = mean_of(to);
    if (!own) {
      ++left_out_;
      to = {};
      return;
    }
    const base::Unit* unit = nullptr;
    std::string as_it_is;
    for (const saw::Typed& typed : to.repeats)
      if (typed.value && as_it_is.empty()) {
        unit = typed.value->unit;
        as_it_is = typed.text;
      }
    const std::string text = unit ? widened_text(*own, width_.sigma(place_ + key, *own, dimension), *unit) : as_it_is;
    to = {{{text, std::nullopt}}, {}, {}, note_};
  }

  std::string place_;
  const Width& width_;
  const std::string& note_;
  int& left_out_;
};

void mark_borrowed(book::Tree& tree, const std::string& sister) {
  for (book::Part& part : tree.parts) mark_borrowed(part.tree, sister);
  if (book::find(tree, "read") != nullptr) put_part(tree, "borrowed_from", text_leaf(sister));
}

// What belongs to that one saw and its day, not to the model.
void leave_own(saw::Readings& readings) {
  readings.evidence = {};
  readings.day = {};
  readings.casting.clear();
  readings.drive = {};
}

struct Begun {
  book::Tree saw, readings;
  int left_out = 0;
};

Begun begun(saw::Readings readings, const std::vector<saw::Readings>& sisters, const std::string& name) {
  Begun out;
  const std::string sister = readings.name;
  const std::string note = "borrowed from " + sister;
  leave_own(readings);
  readings.state = "not read yet";
  const Width width(sisters);
  Borrower borrower("", width, note, out.left_out);
  fields(readings, borrower);
  put_part(out.saw, "name", text_leaf(name));
  put_part(out.saw, "model", text_leaf(readings.model));
  out.readings = tree_of(readings);
  for (const char* own : {"format", "name", "model", "casting"}) book::remove(out.readings, own);
  mark_borrowed(out.readings, sister);
  put_part(out.readings, "borrowed_from", text_leaf(sister));
  return out;
}

// The readings of all sisters that can be read, the sister asked for first.
base::ResultAll<std::vector<saw::Readings>> read_all(Shelf& shelf, const ShelfSaw& sister) {
  const auto own = read_tree(whole_tree(sister));
  if (!own) return tl::unexpected(own.error());
  std::vector<saw::Readings> out{own->readings};
  if (own->readings.model.empty()) return out;
  auto all = sisters_of(shelf, own->readings.model);
  if (!all) return only_error(all);
  for (const ShelfSaw& one : all->saws) {
    const bool is_borrowed = one.readings && !text_at(body_of(*one.readings), "borrowed_from").empty();
    if (one.saw.id == sister.saw.id || is_borrowed) continue;  // what was borrowed tells nothing new
    if (const auto read = read_tree(whole_tree(one))) out.push_back(read->readings);
  }
  return out;
}

}  // namespace

base::ResultAll<wire::BookDoneAnswer> book_borrow(const BookBorrowRequest& request) {
  if (base::typed::trimmed(request.name).empty())
    return tl::unexpected(base::Errors{{base::ErrorCode::usage, "The new saw needs a name.", "", "", {}}});
  auto shelf = open_shelf(request.book, Reach::write, request.by);
  if (!shelf) return only_error(shelf);
  auto sister = find_saw(*shelf, request.sister);
  if (!sister) return only_error(sister);
  const auto readings = read_all(*shelf, *sister);
  if (!readings) return tl::unexpected(readings.error());
  const Begun made = begun(readings->front(), *readings, request.name);
  book::Deed deed;
  deed.label = "begun from the readings of " + sister->saw.title;
  const std::string saw = book::new_id();
  deed.added.push_back({saw, "saw", "", book::print(made.saw)});
  deed.added.push_back({book::new_id(), "readings", saw, book::print(made.readings)});
  auto answer = done(*shelf, nullptr, std::move(deed));
  if (!answer) return answer;
  answer->saw = saw;
  answer->name = request.name;
  const std::size_t count = readings->size();
  answer->head.notices.push_back(
      count == 1 ? "One sister tells nothing of how far sisters differ: the tolerances are named assumptions "
                   "(sister_edge, sister_length, sister_share), own judgement."
                 : "Tolerances from " + std::to_string(count) +
                       " sisters, and from named assumptions with the weight of three more.");
  if (made.left_out > 0)
    answer->head.notices.push_back(std::to_string(made.left_out) + " readings that cannot be read were not borrowed.");
  return answer;
}

}  // namespace portwright::desk
