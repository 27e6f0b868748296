// The proposed order against the judge: whatever the plan, running the products in the proposed order with
// the proposed cleanings, each verified, no product meets residue that it does not declare. And what is least
// is least, against every order.
#include "site/ask/sequence.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <numeric>
#include <random>

#include "fold/label.h"
#include "judge/changeover.h"

using namespace peelbook;
using namespace peelbook::site;

namespace {

const std::vector<std::string> words = {"wheat", "milk", "egg", "sesame", "hazelnut", "almond"};

class Chance {
  public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}
    std::size_t below(std::size_t n) { return engine_() % n; }
    std::vector<std::string> subset(std::size_t one_in) {
        std::vector<std::string> out;
        for (const auto& w : words)
            if (below(one_in) == 0) out.push_back(w);
        return out;
    }

  private:
    std::mt19937_64 engine_;
};

// Products that each contain some allergens and declare those and some more; pieces that some of them touch;
// cleanings of some.
plan::Plan random_plan(Chance& chance, std::size_t products) {
    plan::Plan plan;
    for (std::size_t i = 0; i < products; ++i) {
        const std::string id = "p" + std::to_string(i);
        plan::Material material;
        material.id = "m" + std::to_string(i);
        material.allergens = chance.subset(3);
        plan.materials.push_back(material);
        plan::Product product;
        product.id = id;
        product.line = "line";
        product.label = id + "-label";
        plan::FormulaItem item;
        item.item = material.id;
        product.formula = {item};
        plan.products.push_back(product);
        plan::Label label;
        label.id = product.label;
        label.product = id;
        label.market = "eu";
        label.declares = material.allergens;
        label.may_contain = chance.subset(4);
        plan.labels.push_back(label);
    }
    for (std::size_t i = 0; i < 1 + chance.below(3); ++i) {
        plan::Equipment piece;
        piece.id = "e" + std::to_string(i);
        piece.lines = {"line"};
        for (const auto& product : plan.products)
            if (chance.below(3) > 0) piece.products.push_back(product.id);
        plan.equipment.push_back(piece);
        for (std::size_t k = 0; k < 3; ++k) {
            plan::Cleaning cleaning;
            cleaning.id = piece.id + "-c" + std::to_string(k);
            cleaning.equipment = {piece.id};
            cleaning.clears = k == 0 ? words : chance.subset(2);
            if (k == 0 && chance.below(4) == 0) cleaning.clears = chance.subset(2);  // then some order may not work
            cleaning.time = minutes(static_cast<std::int64_t>(5 + chance.below(40)));
            cleaning.verify = {"seen"};
            plan.cleanings.push_back(cleaning);
        }
    }
    return plan;
}

std::vector<SequenceProduct> all_of(const plan::Plan& plan) {
    std::vector<SequenceProduct> out;
    for (const auto& product : plan.products) out.push_back({product.id, 1, 30, {}});
    return out;
}

// What the judge finds when the order is run as proposed: undeclared residue that a product met, on any
// piece.
std::vector<std::string> found_by_judge(const plan::Plan& plan, const SequenceProposal& proposal) {
    std::vector<std::string> out;
    for (const auto& piece : plan.equipment) {
        std::vector<judge::EquipmentRun> runs;
        std::vector<judge::EquipmentCleaning> cleanings;
        std::vector<judge::EquipmentCheck> checks;
        std::int64_t now = 0;
        for (std::size_t i = 0; i < proposal.order.size(); ++i) {
            const auto& step = proposal.order[i];
            for (const auto& clean : step.before.pieces) {
                if (clean.piece != piece.id) continue;
                for (const auto& id : clean.cleanings) {
                    ++now;
                    cleanings.push_back({now, {now}, plan.cleaning(id)->clears, {"seen"}});
                    checks.push_back({{now}, "seen", true});
                }
            }
            ++now;
            if (!piece.products.empty() && std::find(piece.products.begin(), piece.products.end(), step.product) == piece.products.end())
                continue;
            judge::EquipmentRun run{static_cast<std::int64_t>(i), {now}, {}};
            for (const auto& [allergen, sure] : brought_by(plan, step.product)) run.brings.push_back({allergen, sure});
            runs.push_back(run);
        }
        for (const auto& met : judge::judge_changeovers({}, runs, cleanings, checks).met) {
            const auto& product = proposal.order[static_cast<std::size_t>(met.lot)].product;
            book::Lot batch;
            batch.kind = LotKind::batch;
            batch.item = product;
            if (!fold::declared_by_all(fold::labels_for(plan, batch), met.residue.allergen.id))
                out.push_back(met.residue.allergen.id + " in " + product);
        }
    }
    return out;
}

}  // namespace

TEST_CASE("no proposed order is found deviating by the judge of changeovers, on 400 random plans") {
    Chance chance(20261125);
    int found = 0, cleaned = 0;
    for (int i = 0; i < 400; ++i) {
        const auto plan = random_plan(chance, 2 + chance.below(6));
        const auto proposal = propose_sequence(plan, "line", all_of(plan), {});
        REQUIRE(proposal.ok());
        if (!proposal->found) continue;
        ++found;
        if (proposal->cleaning_minutes > 0) ++cleaned;
        INFO("plan " << i);
        REQUIRE(found_by_judge(plan, *proposal) == std::vector<std::string>{});
    }
    CHECK(found > 200);
    CHECK(cleaned > 50);
}

TEST_CASE("the proposed minutes are the least over every order, on 200 random plans of up to 6 products") {
    Chance chance(7);
    for (int i = 0; i < 200; ++i) {
        const auto plan = random_plan(chance, 2 + chance.below(5));
        const auto given = all_of(plan);
        std::vector<std::string> names;
        for (const auto& one : given) names.push_back(one.product);
        const auto at_all = can_lie(plan, "line", names, {});
        std::vector<std::size_t> order(given.size());
        std::iota(order.begin(), order.end(), 0);
        std::optional<std::int64_t> least;
        do {
            std::int64_t minutes = 0;
            bool works = true;
            for (std::size_t k = 0; k < order.size(); ++k) {
                const auto lying = k == 0 ? Lying{} : left_by(plan, "line", names[order[k - 1]], at_all);
                const auto cleaning = cleaning_before(plan, "line", lying, names[order[k]]);
                minutes += cleaning.minutes;
                works = works && cleaning.possible();
            }
            if (works && (!least || minutes < *least)) least = minutes;
        } while (std::next_permutation(order.begin(), order.end()));
        const auto proposal = propose_sequence(plan, "line", given, {});
        REQUIRE(proposal.ok());
        INFO("plan " << i);
        CHECK(proposal->found == least.has_value());
        CHECK(proposal->proven);
        if (least) CHECK(proposal->cleaning_minutes == *least);
    }
}

TEST_CASE("60 products on a line are proposed an order, with a bound, in less than 5 seconds", "[timed]") {
    Chance chance(60);
    auto plan = random_plan(chance, 60);
    for (auto& cleaning : plan.cleanings) cleaning.clears = words;
    const auto began = std::chrono::steady_clock::now();
    const auto proposal = propose_sequence(plan, "line", all_of(plan), {});
    const auto took = std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - began);
    REQUIRE(proposal.ok());
    CHECK(proposal->found);
    CHECK(proposal->bound <= proposal->cleaning_minutes);
    CHECK(proposal->order.size() == 60);
#ifndef __SANITIZE_ADDRESS__  // the sanitizers' build takes several times as long
    CHECK(took.count() < 5000);
#endif
    INFO(took.count() << " ms");
}

TEST_CASE("why no order works, and what the cheapest extra cleaning is") {
    plan::Plan plan;
    Chance chance(1);
    plan = random_plan(chance, 2);
    plan.equipment.resize(1);
    plan.equipment[0].products.clear();
    plan.cleanings.clear();
    plan.materials[0].allergens = plan.labels[0].declares = {"milk"};
    plan.materials[1].allergens = plan.labels[1].declares = {"egg"};
    plan.labels[0].may_contain = plan.labels[1].may_contain = {};
    const auto proposal = propose_sequence(plan, "line", all_of(plan), {});
    REQUIRE(proposal.ok());
    CHECK_FALSE(proposal->found);
    CHECK(proposal->proven);
    CHECK_FALSE(proposal->reasons.empty());
    REQUIRE(proposal->order.size() == 2);
    CHECK(proposal->order[1].before.cannot.size() == 1);
    CHECK_FALSE(propose_sequence(plan, "lien", all_of(plan), {}).ok());
    CHECK_FALSE(propose_sequence(plan, "line", {{"p9", 1, 5, {}}}, {}).ok());
}
