//! Words of recipe changes: what an ingredient is, and how strict an answer is.

use super::UnknownWord;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

vocabulary!(
    /// What an ingredient is, as far as the rules of recipe changes ask.
    IngredientKind, "ingredient kind", {
        /// Fresh peppers and chiles.
        Pepper = "pepper",
        /// Peppers out of a bought can.
        CannedPepper = "canned-pepper",
        /// Red, white or yellow onions.
        Onion = "onion",
        /// Shallots, leeks, green and pearl onions by name.
        OtherOnion = "other-onion",
        /// Garlic.
        Garlic = "garlic",
        /// Domestic mushrooms.
        Mushroom = "mushroom",
        /// Wild mushrooms.
        WildMushroom = "wild-mushroom",
        /// Any other low-acid vegetable.
        Vegetable = "vegetable",
        /// Vegetables a recipe counts together.
        VegetableMix = "vegetable-mix",
        /// Leafy greens.
        LeafyGreen = "leafy-green",
        /// Dried beans and peas.
        DriedBean = "dried-bean",
        /// Cream-style corn.
        CreamCorn = "cream-corn",
        /// Winter squash and pumpkin.
        WinterSquash = "winter-squash",
        /// Sweet potatoes.
        SweetPotato = "sweet-potato",
        /// Cucumbers.
        Cucumber = "cucumber",
        /// Zucchini and yellow squash.
        SummerSquash = "summer-squash",
        /// Fresh herbs.
        FreshHerb = "fresh-herb",
        /// Fruit that is not acid: melon, banana, papaya.
        LowAcidFruit = "low-acid-fruit",
        /// Meat, fish, suet.
        Meat = "meat",
        /// Oil.
        Oil = "oil",
        /// Ripe tomatoes.
        Tomato = "tomato",
        /// Green tomatoes.
        GreenTomato = "green-tomato",
        /// Tomatillos.
        Tomatillo = "tomatillo",
        /// Acid fruit.
        Fruit = "fruit",
        /// Fruit near the border of acid.
        BorderlineFruit = "borderline-fruit",
        /// Vinegar of 5 percent, not cider.
        Vinegar = "vinegar",
        /// Cider vinegar of 5 percent.
        CiderVinegar = "cider-vinegar",
        /// Vinegar whose strength is not said.
        UnknownVinegar = "unknown-vinegar",
        /// Home-made vinegar.
        HomeMadeVinegar = "home-made-vinegar",
        /// Bottled lemon juice.
        BottledLemon = "bottled-lemon",
        /// Bottled lime juice.
        BottledLime = "bottled-lime",
        /// Bottled lemon or lime juice, as the recipe leaves open.
        BottledCitrus = "bottled-citrus",
        /// Lemon or lime juice not said to be bottled.
        FreshCitrus = "fresh-citrus",
        /// Citric acid.
        CitricAcid = "citric-acid",
        /// Any other acid.
        OtherAcid = "other-acid",
        /// Water and what thins like it.
        Water = "water",
        /// Juice that is not the acid of a recipe.
        Juice = "juice",
        /// Canning salt, or plain salt.
        Salt = "salt",
        /// Table salt.
        TableSalt = "table-salt",
        /// Flaked salt.
        FlakeSalt = "flake-salt",
        /// Salt with potassium in it.
        ReducedSodiumSalt = "reduced-sodium-salt",
        /// Sugar.
        Sugar = "sugar",
        /// Honey and syrups.
        Honey = "honey",
        /// Sucralose.
        Sucralose = "sucralose",
        /// Any other sweetener.
        OtherSweetener = "other-sweetener",
        /// Dried spices and dried herbs.
        DriedSpice = "dried-spice",
        /// Cook-type modified starch for canning.
        CanningStarch = "canning-starch",
        /// Flour and other starches.
        Thickener = "thickener",
        /// Pasta, rice, bread.
        Filler = "filler",
        /// Milk, cream, butter, egg.
        Dairy = "dairy",
        /// Pectin and gelatin.
        Pectin = "pectin",
        /// Lime for soaking pickles.
        PicklingLime = "pickling-lime",
        /// Alum.
        Alum = "alum",
        /// Food colouring.
        Colouring = "colouring",
        /// Prepared seasonings.
        Seasoning = "seasoning",
        /// Anything else a tested recipe names.
        Other = "other",
        /// A word that says how something is cut, and nothing of what it is.
        HowCut = "how-cut",
    }
);

impl IngredientKind {
    /// Whether it is not acid by itself and so counts against the acid of a recipe.
    pub fn is_low_acid(self) -> bool {
        use IngredientKind as K;
        matches!(
            self,
            K::Pepper
                | K::CannedPepper
                | K::Onion
                | K::OtherOnion
                | K::Garlic
                | K::Mushroom
                | K::WildMushroom
                | K::Vegetable
                | K::VegetableMix
                | K::LeafyGreen
                | K::DriedBean
                | K::CreamCorn
                | K::WinterSquash
                | K::SweetPotato
                | K::Cucumber
                | K::SummerSquash
                | K::FreshHerb
                | K::LowAcidFruit
                | K::Meat
        )
    }

    /// Whether it is one of the acids a recipe may rest on, or stands in for one.
    pub fn is_acid(self) -> bool {
        use IngredientKind as K;
        matches!(
            self,
            K::Vinegar
                | K::CiderVinegar
                | K::BottledLemon
                | K::BottledLime
                | K::BottledCitrus
                | K::FreshCitrus
                | K::CitricAcid
                | K::OtherAcid
        )
    }

    /// Whether it is food that vinegar and water have to reach: produce of every kind.
    pub fn is_food(self) -> bool {
        use IngredientKind as K;
        self.is_low_acid()
            || matches!(
                self,
                K::Tomato | K::GreenTomato | K::Tomatillo | K::Fruit | K::BorderlineFruit
            )
    }
}

vocabulary!(
    /// What a rule makes of a change to a recipe; the order is from mild to strict.
    ChangeAnswer, "answer to a change", {
        /// Allowed.
        Allow = "allow",
        /// Allowed under its condition.
        AllowIf = "allow-if",
        /// Refused.
        Refuse = "refuse",
    }
);
