#include "seek/wish.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/number_text.hpp"
#include "base/quantity/text.hpp"
#include "cuts/words.hpp"

namespace portwright::seek {
namespace {

using base::Dimension;
using base::ErrorCode;
using Texts = std::vector<std::string>;

constexpr double least_speed = 1000.0 / 60.0, most_speed = 20000.0 / 60.0;  // [rev/s]
constexpr double shortest_bar = 0.2, longest_bar = 2.5;                     // [m]; own judgement
constexpr double most_change = 1.0;                                         // doubled: nothing a search may promise

constexpr std::array<std::pair<std::string_view, Figure>, 4> figures{
    {{"power", Figure::power}, {"torque", Figure::torque}, {"pull", Figure::pull}, {"heat", Figure::heat}}};

std::optional<Figure> figure_of(std::string_view word) {
  for (const auto& [name, figure] : figures)
    if (word == name) return figure;
  return std::nullopt;
}

const char* word_of(Figure figure) { return figures[static_cast<std::size_t>(figure)].first.data(); }

/// One wish's words, taken from the front.
class Words {
 public:
  explicit Words(const cuts::Phrase& phrase) {
    for (const cuts::Word& word : phrase.words) words_.push_back(cuts::lower(word.text));
  }
  [[nodiscard]] bool empty() const { return at_ >= words_.size(); }
  [[nodiscard]] std::string peek() const { return empty() ? std::string() : words_[at_]; }
  std::string take() { return empty() ? std::string() : words_[at_++]; }
  bool take(std::string_view word) {
    if (peek() != word) return false;
    ++at_;
    return true;
  }
  /// Words up to one of `ends`, joined.
  std::string until(std::initializer_list<std::string_view> ends) {
    Texts out;
    while (!empty() && std::find(ends.begin(), ends.end(), peek()) == ends.end()) out.push_back(take());
    return cuts::joined(out);
  }

 private:
  Texts words_;
  std::size_t at_ = 0;
};

class Reader {
 public:
  void read(const cuts::Phrase& phrase, std::size_t number) {
    path_ = "wishes." + std::to_string(number);
    text_ = phrase.text;
    Words words(phrase);
    const std::string first = words.peek();
    if (first == "most" || first == "least") return aim(words);
    if (figure_of(first)) return hold(words);
    if (cuts::lower(phrase.text) == "low speed free") return void(out.low_speed_free = true);
    auto wishes = plan::parse_wishes(phrase.text);
    if (wishes) return void(out.geometry.insert(out.geometry.end(), wishes->begin(), wishes->end()));
    for (base::Error& error : wishes.error()) {
      error.path = path_;
      errors.push_back(std::move(error));
    }
  }

  void end() {
    if (aims_ == 0 && errors.empty()) {
      path_ = "wishes";
      text_.clear();
      fail("Nothing is said of what is wanted most.",
           "Begin with what is wanted:", {"most power", "most torque at 8000 rpm", "most pull"});
    }
  }

  EngineWish out;
  base::Errors errors;

 private:
  void fail(std::string message, std::string hint = {}, Texts readings = {}) {
    errors.push_back({ErrorCode::unreadable, std::move(message), path_, std::move(hint), std::move(readings)});
  }
  [[nodiscard]] std::string shown() const { return cuts::shown(text_); }

  void aim(Words& words) {
    const bool least = words.take() == "least";
    const auto figure = figure_of(words.take());
    if (!figure)
      return fail(shown() + " does not say of what.", "", {"most power", "most torque at 8000 rpm", "most pull"});
    if (least != (*figure == Figure::heat))
      return fail(shown() + " is nothing to work for.", "", {"most power", "most pull", "least heat"});
    if (++aims_ > 1)
      return fail(shown() + " is wanted beside another.",
                  "One figure is wanted most; what may not be lost is said with at least:",
                  {std::string(word_of(*figure)) + " at least as stock"});
    out.aim = {*figure, 0.0, 0.0, text_};
    if (words.take("at") && !speed(words, *figure, out.aim.speed)) return;
    if (words.take("for")) bar(words);
    if (!words.empty()) fail(shown() + " goes on after what can be read: " + cuts::shown(words.until({})) + ".");
  }

  void bar(Words& words) {
    if (!words.take("a")) words.take("an");
    const std::string length = words.until({"bar"});
    if (!words.take("bar")) return fail(shown() + " is for something that is no bar.", "As in: for a 28 in bar");
    const auto read = base::parse_quantity(length, Dimension::length, path_);
    if (!read) return errors.push_back(read.error());
    if (read->si < shortest_bar || read->si > longest_bar)
      return fail("A bar of " + length + " is none that a chain runs on.", "Give 8 to 98 in.");
    out.aim.bar = read->si;
  }

  bool speed(Words& words, Figure figure, double& to) {
    std::string text = words.until({"at", "for", "as"});
    if (figure == Figure::pull || figure == Figure::heat) {
      fail(shown() + ": " + word_of(figure) + " has no speed of its own.",
           figure == Figure::pull ? "It is the mean torque at 65 and 80 % of the speed of most power."
                                  : "It is taken at the speed of most power.");
      return false;
    }
    std::erase(text, ',');
    const auto read = base::parse_quantity(text, Dimension::speed, path_);
    if (!read) {
      errors.push_back(read.error());
      return false;
    }
    if (read->si < least_speed || read->si > most_speed) {
      fail(shown() + " speaks of a speed that no saw turns.", "Give 1,000 to 20,000 rpm.");
      return false;
    }
    to = read->si;
    return true;
  }

  void hold(Words& words) {
    Hold hold;
    hold.text = text_;
    hold.figure = *figure_of(words.take());
    const auto relation = [&] {
      if (!words.take("at")) return 0;
      if (words.take("least")) return 1;
      if (words.take("most")) return -1;
      return 2;
    };
    int said = relation();
    if (said == 2) {
      if (!speed(words, hold.figure, hold.speed)) return;
      said = relation();
    }
    if (said != 1 && said != -1) return ask_how(hold);
    hold.at_least = said == 1;
    if (words.take("as")) {
      if (!words.take("stock") || !words.empty()) return ask_how(hold);
    } else if (!change(words.until({}), hold)) {
      return;
    }
    out.holds.push_back(std::move(hold));
  }

  /// "+5 %": a change from stock.
  bool change(const std::string& text, Hold& hold) {
    const bool is_signed = !text.empty() && (text.front() == '+' || text.front() == '-');
    const auto read = base::parse_quantity(is_signed ? text.substr(1) : text, Dimension::share, path_);
    if (!is_signed || !read) {
      fail(shown() + " is not told as a change from stock.",
           "What the engine gives is known beside stock, not by itself: say by how much it is to change.",
           {offer(hold, "+5 %"), offer(hold, "as stock")});
      return false;
    }
    hold.change = text.front() == '-' ? -read->si : read->si;
    if (std::abs(hold.change) > most_change) {
      fail(shown() + " asks for more than any port gives.", "Say a change of up to 100 %.");
      return false;
    }
    return true;
  }

  static std::string offer(const Hold& hold, const char* what) {
    std::string out = word_of(hold.figure);
    if (hold.speed > 0.0) out += " at " + std::to_string(static_cast<int>(std::lround(60.0 * hold.speed))) + " rpm";
    return out + (hold.at_least ? " at least " : " at most ") + what;
  }

  void ask_how(Hold hold) {
    hold.at_least = hold.figure != Figure::heat;
    fail(shown() + " does not say how much is enough.", "",
         {offer(hold, "as stock"),
          std::string(hold.figure == Figure::heat ? "least " : "most ") + word_of(hold.figure)});
  }

  std::string path_, text_;
  int aims_ = 0;
};

}  // namespace

base::ResultAll<EngineWish> parse_engine_wish(std::string_view text) {
  const auto parts = cuts::part_list(text);
  if (!parts) return tl::unexpected(base::Errors{parts.error()});
  Reader reader;
  for (std::size_t i = 0; i < parts->size(); ++i) reader.read((*parts)[i], i + 1);
  reader.end();
  if (!reader.errors.empty()) return tl::unexpected(std::move(reader.errors));
  return std::move(reader.out);
}

bool speaks_of_engine(std::string_view text) {
  const auto parts = cuts::part_list(text);
  return parts && std::any_of(parts->begin(), parts->end(), [](const cuts::Phrase& phrase) {
           if (phrase.words.empty()) return false;
           const std::string first = cuts::lower(phrase.words.front().text);
           return first == "most" || first == "least";
         });
}

std::string aim_text(const Aim& aim) {
  std::string out = (aim.figure == Figure::heat ? "least " : "most ") + std::string(word_of(aim.figure));
  if (aim.speed > 0.0) out += " at " + base::number_text(60.0 * aim.speed, 0) + " rpm";
  if (aim.bar > 0.0) out += " for a bar of " + bar_text(aim.bar);
  return out;
}

std::string bar_text(double bar) {
  const double inches = bar / 0.0254;
  return base::number_text(inches, std::abs(inches - std::round(inches)) < 0.05 ? 0 : 1) + " in (" +
         base::number_text(100.0 * bar, 0) + " cm)";
}

}  // namespace portwright::seek
