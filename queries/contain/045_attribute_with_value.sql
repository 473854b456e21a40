-- attribute_with_value: the attributes that have a value, such as the number of a lot
-- One row is an attribute. Parameter: value. Reads: attribute.
SELECT
    attribute.name,
    count(*) AS units
FROM attribute
WHERE attribute.text_value = $value
GROUP BY attribute.name
ORDER BY units DESC, attribute.name;
